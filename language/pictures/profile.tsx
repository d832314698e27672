/** The profile across the runway: how often a broom or jet touches each offset of a bay, and how often it is rinsed. */
import type { BayPicture, PictureData } from './data.ts';
import type { SheetView } from './layout.ts';
import { type Layer, r, T } from './parts.tsx';
import type { FigureProps } from './plan.tsx';
import { boxOf, fitting } from './text.ts';
import { codeOfBay, nameOfBay } from './things.ts';

/** The bay whose profile is shown: the one asked for, else the first of the night that misses a limit, else its first. */
export function profileBay(data: PictureData, view: SheetView): BayPicture | undefined {
  const here = data.bays.filter(bay => data.works[bay.work]!.runway === view.runway);
  const tonight = here.filter(bay => bay.night === view.night);
  return here.find(bay => bay.id === view.bay) ?? tonight.find(bay => bay.state !== 'kept') ?? tonight[0] ?? here[0];
}

export function Profile(props: FigureProps & { readonly layer: Layer }) {
  const { data, view, layout, t } = props;
  const bay = profileBay(data, view);
  if (!bay) return null;
  // A method by water alone has no contacts of brooms: its tool is the jet.
  const tool =
    bay.profile.some(each => each.contacts[1] > 0) || bay.profile.every(each => each.jets[1] === 0)
      ? 'contacts'
      : 'jets';
  const need = tool === 'contacts' ? data.works[bay.work]!.contacts : undefined;
  const gap = 14;
  const w = (layout.right.w - gap) / 2;
  const name = nameOfBay(data, bay);
  const code = codeOfBay(data, bay);
  const limit = need === undefined ? '' : ` ≥${need}`;
  const titles =
    tool === 'contacts'
      ? [t('{0}: contacts', name), t('Contacts {0}', name), t('Contacts {0}', code), t('Contacts')]
      : [t('{0}: jet passes', name), t('Jet passes {0}', name), t('Jet passes {0}', code), t('Jet passes')];
  return (
    <g>
      <Bars
        {...props}
        bay={bay}
        of={tool}
        x={layout.right.x}
        w={w}
        titles={[...titles.map(each => `${each}${limit}`), titles.at(-1)!]}
        {...(need !== undefined && { need })}
      />
      <Bars
        {...props}
        bay={bay}
        of="rinses"
        x={layout.right.x + w + gap}
        w={w}
        titles={[t('{0}: rinses', name), t('Rinses {0}', name), t('Rinses {0}', code), t('Rinses')]}
      />
    </g>
  );
}

function Bars({
  layer,
  layout,
  room,
  bay,
  of,
  x,
  w,
  titles,
  need,
}: FigureProps & {
  readonly layer: Layer;
  readonly bay: BayPicture;
  readonly of: 'contacts' | 'jets' | 'rinses';
  readonly x: number;
  readonly w: number;
  readonly titles: readonly string[];
  readonly need?: number;
}) {
  const { mapY, map } = layout;
  const most = Math.max(1, need ?? 0, ...bay.profile.map(each => each[of][1]));
  const scale = (w - 34) / most;
  const strips = bay.profile.map(({ y, ...each }) => ({
    top: mapY(y[0]),
    bottom: mapY(y[1]),
    least: each[of][0],
    most: each[of][1],
  }));
  // Neighbours with the same numbers carry one label.
  const groups: { top: number; bottom: number; least: number; most: number }[] = [];
  for (const strip of strips) {
    const last = groups.at(-1);
    if (last && last.least === strip.least && last.most === strip.most && strip.top - last.bottom < 0.5)
      last.bottom = strip.bottom;
    else groups.push({ ...strip });
  }
  if (layer === 'marks') {
    const rect = (from: number, to: number, { top, bottom }: { top: number; bottom: number }) =>
      to <= from ? '' : `M${r(x + from * scale)} ${r(top)}H${r(x + to * scale)}V${r(bottom)}H${r(x + from * scale)}Z`;
    const missed = need === undefined ? [] : groups.filter(each => each.least < need);
    return (
      <g>
        <path class="axis" d={`M${r(x)} ${r(map.y)}V${r(map.y + map.h)}`} />
        <path class={`bar ${of} more`} d={strips.map(strip => rect(strip.least, strip.most, strip)).join('')} />
        <path class={`bar ${of}`} d={strips.map(strip => rect(0, strip.least, strip)).join('')} />
        {missed.length > 0 && <path class="miss-edge" d={missed.map(each => rect(0, need!, each)).join('')} />}
        {need !== undefined && (
          <path class="need" d={`M${r(x + need * scale)} ${r(map.y - 2)}V${r(map.y + map.h + 2)}`} />
        )}
      </g>
    );
  }
  const labels = groups
    .toSorted((a, b) => a.least - b.least || b.bottom - b.top - (a.bottom - a.top))
    .flatMap(group => {
      const text = group.least === group.most ? String(group.least) : `${group.least}–${group.most}`;
      const y = (group.top + group.bottom) / 2 + 4;
      const at = x + group.most * scale + 4;
      const worth = group.bottom - group.top > 5 || (need !== undefined && group.least < need);
      return worth && room.take({ ...boxOf(text, at, y, 'start'), h: 13 })
        ? [{ text, y, at, bad: need !== undefined && group.least < need }]
        : [];
    });
  return (
    <g>
      <T x={x} y={map.title} size={12} bold>
        {fitting(w, titles, 12, true) ?? ''}
      </T>
      {labels.map(({ text, y, at, bad }) => (
        <T x={at} y={y} halo {...(bad && { tone: 'bad', bold: true })}>
          {text}
        </T>
      ))}
    </g>
  );
}
