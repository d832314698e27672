/**
 * The sheet: plan, map and pass chart below each other on one chainage axis; the night sheet on the clock of the pass
 * chart; the profile on the offsets of the map. `Still` is what stands still for a view, `Moment` what the time moves;
 * `Sheet` is both.
 */
import type { PictureData } from './data.ts';
import type { Layout, SheetView } from './layout.ts';
import { Machine } from './machine.tsx';
import { clockText, limitOf, minuteRange } from './minutes.ts';
import { machinesAt, wetAt } from './moment.ts';
import { NightSheetMarks, NightSheetWords } from './nightSheet.tsx';
import { once } from './once.ts';
import { Hatches, type Layer, r, Sign, T, To } from './parts.tsx';
import { backTexts, hoursOf, PassChartMarks, PassChartWords } from './passChart.tsx';
import { type FigureProps, PlanMarks, PlanWords, polygon } from './plan.tsx';
import { Profile } from './profile.tsx';
import { Signs } from './signs.tsx';
import { SoakMapMarks, SoakMapWords } from './soakMap.tsx';
import { boxOf, fitting, newRoom, textWidth } from './text.ts';
import { english, type Translate } from './words.ts';

export interface SheetProps {
  readonly data: PictureData;
  readonly view: SheetView;
  readonly layout: Layout;
  readonly id: string;
  /** In a preview: with what leads to the tables. A picture by itself has none. */
  readonly live?: boolean;
  /** Words of the reader's language; English by default. */
  readonly t?: Translate;
}

/** The parts of a sheet that can be drawn by themselves, in the order of reading. */
export const sheetParts = ['plan', 'signs', 'map', 'profile', 'chart', 'night', 'strips'] as const;
export type SheetPart = (typeof sheetParts)[number];

/** What a part is drawn from. */
export type Scene = Pick<SheetProps, 'data' | 'view' | 'layout'>;

/** What of a view each part shows. Parts beside the axis of the chainage don't ask for the axis either. */
const shows: Readonly<Record<SheetPart, { readonly view: readonly (keyof SheetView)[]; readonly axis: boolean }>> = {
  plan: { view: ['runway', 'night'], axis: true },
  signs: { view: ['runway', 'clock'], axis: false },
  map: { view: ['runway', 'clock'], axis: true },
  profile: { view: ['runway', 'night', 'bay'], axis: false },
  chart: { view: ['runway', 'night'], axis: true },
  night: { view: ['night'], axis: false },
  strips: { view: ['runway', 'night'], axis: true },
};

/** Whether a part is the same picture in two scenes, as far as that can be told without drawing it. */
export function sameFor(part: SheetPart, a: Scene, b: Scene): boolean {
  if (a === b) return true;
  const { view, axis } = shows[part];
  return (
    a.data === b.data &&
    view.every(each => a.view[each] === b.view[each]) &&
    (a.layout === b.layout || measures(a.layout, axis) === measures(b.layout, axis))
  );
}

/** All numbers of a layout; its functions follow from them. */
const measures = once((layout: Layout, axis: boolean): string => {
  const { along, chart, exaggeration, ...beside } = layout;
  return JSON.stringify(axis ? layout : beside);
});

/** The whole of a view in one picture: what moves lies over the marks and under the words. */
export function Sheet(props: SheetProps) {
  return (
    <g>
      {sheetParts.map(part => isIn(part, 'marks') && <Still {...props} part={part} layer="marks" />)}
      <Moment {...props} layer="marks" />
      {sheetParts.map(part => (
        <Still {...props} part={part} layer="words" />
      ))}
      <Moment {...props} layer="words" />
    </g>
  );
}

/** Whether there is anything of a part in a layer. */
export function isIn(part: SheetPart, layer: Layer): boolean {
  return layer === 'words' || (part !== 'signs' && part !== 'strips');
}

/** One part of what stands still. Its words keep clear of each other; those of other parts are never near. */
export function Still({
  part,
  layer,
  data,
  view,
  layout,
  id,
  live,
  t = english,
}: SheetProps & { readonly part: SheetPart; readonly layer: Layer }) {
  const props: FigureProps = { data, view, layout, id, t, room: newRoom(), live: live ?? false };
  return (
    <g data-unit={part}>
      {layer === 'words' ? (
        <Words {...props} part={part} />
      ) : (
        <>
          <defs>
            {part === 'plan' && <Hatches id={id} />}
            <Clips {...props} part={part} />
          </defs>
          <Marks {...props} part={part} />
        </>
      )}
    </g>
  );
}

function Marks({ part, ...props }: FigureProps & { readonly part: SheetPart }) {
  switch (part) {
    case 'plan':
      return (
        <>
          <Guides {...props} />
          <PlanMarks {...props} />
        </>
      );
    case 'map':
      return <SoakMapMarks {...props} />;
    case 'profile':
      return <Profile {...props} layer="marks" />;
    case 'chart':
      return <PassChartMarks {...props} />;
    case 'night':
      return <NightSheetMarks {...props} />;
    default:
      return null;
  }
}

function Words({ part, ...props }: FigureProps & { readonly part: SheetPart }) {
  const { layout, t, live } = props;
  switch (part) {
    case 'plan':
      return (
        <>
          <PlanWords {...props} />
          {live && <TableMark of="plan" layout={layout} t={t} />}
        </>
      );
    case 'map':
      return (
        <>
          <SoakMapWords {...props} />
          {live && <TableMark of="soak" layout={layout} t={t} />}
        </>
      );
    case 'chart':
      return (
        <>
          <PassChartWords {...props} />
          {live && <TableMark of="passes" layout={layout} t={t} />}
        </>
      );
    case 'signs':
      return <Signs {...props} />;
    case 'profile':
      return <Profile {...props} layer="words" />;
    case 'night':
      return <NightSheetWords {...props} />;
    case 'strips':
      return <Strips {...props} />;
  }
}

/** At the end of each title, the way to the table of the figure. */
function TableMark({ of, layout, t }: { of: 'plan' | 'soak' | 'passes'; layout: Layout; t: Translate }) {
  const x = layout.chart.x + layout.chart.w - 11;
  const { name, y } = {
    plan: { name: t('Table of the deposits'), y: layout.plan.title },
    soak: { name: t('Table of soak and residence'), y: layout.map.title },
    passes: { name: t('Table of what is done when'), y: layout.time.title },
  }[of];
  return (
    <g
      data-act={`table:${of}`}
      role="button"
      tabindex={0}
      aria-label={name}
      transform={`translate(${r(x)} ${r(y - 10)})`}
    >
      <title>{name}</title>
      <rect class="hit" x="-4" y="-4" width="19" height="18" />
      <path class="axis" d="M0.5 0.5H10.5V9.5H0.5ZM0.5 3.5H10.5M0.5 6.5H10.5M4.5 0.5V9.5" />
    </g>
  );
}

function Clips({ data, view, layout, id, part }: FigureProps & { readonly part: SheetPart }) {
  const { along, plan, planY, map, time, chart, right } = layout;
  const { segments } = along;
  switch (part) {
    case 'plan':
      return (
        <>
          <clipPath id={`${id}-plan`}>
            {segments.map(({ px }) => (
              <rect x={r(px[0] - 4)} y={r(plan.y)} width={r(px[1] - px[0] + 8)} height={r(plan.h)} />
            ))}
          </clipPath>
          <clipPath id={`${id}-ground`}>
            <path
              d={data.bays
                .filter(bay => data.works[bay.work]!.runway === view.runway)
                .flatMap(bay => bay.outlines.map(outline => polygon(outline, along, planY)))
                .join('')}
            />
          </clipPath>
        </>
      );
    case 'map':
      return (
        <clipPath id={`${id}-map`}>
          {segments.map(({ px }) => (
            <rect x={r(px[0])} y={r(map.y)} width={r(px[1] - px[0])} height={r(map.h)} />
          ))}
        </clipPath>
      );
    case 'chart':
      return (
        <clipPath id={`${id}-time`}>
          <rect x={r(chart.x - 2)} y={r(time.y)} width={r(chart.w + 4)} height={r(time.h)} />
        </clipPath>
      );
    case 'night':
      return (
        <clipPath id={`${id}-night`}>
          <rect x={r(right.x)} y={r(time.y)} width={r(right.w)} height={r(time.h)} />
        </clipPath>
      );
    default:
      return null;
  }
}

/** Ends of the ground and of bays, down through all figures; cuts of the axis. */
function Guides({ data, view, layout }: FigureProps) {
  const { along, plan, map, time } = layout;
  const own = data.bays.filter(bay => data.works[bay.work]!.runway === view.runway);
  const all = own.flatMap(bay => bay.x);
  const shared = new Map<number, number>();
  for (const x of all) shared.set(Math.round(x * 10) / 10, (shared.get(Math.round(x * 10) / 10) ?? 0) + 1);
  // Not through the titles between the figures.
  const down = (x: number): string =>
    [
      [plan.y, plan.y + plan.h],
      [map.y - 3, map.y + map.h + 3],
      [time.y, time.y + time.h],
    ]
      .map(([a, b]) => `M${r(x)} ${r(a!)}V${r(b!)}`)
      .join('');
  return (
    <g>
      {[...shared].map(([x, count]) =>
        along.part([x - 0.05, x + 0.05]) ? (
          <path class={count > 1 ? 'guide' : 'guide end'} d={down(along.px(x))} />
        ) : null,
      )}
      {along.segments.slice(1).map(({ px }, i) => {
        const left = along.segments[i]!.px[1];
        const middle = (left + px[0]) / 2;
        return <path class="rule" d={down(middle)} stroke-dasharray="2 5" />;
      })}
    </g>
  );
}

/** Closures not open: one line each, the bays that are done in them where they lie. */
function Strips({ data, view, layout, room, t }: FigureProps) {
  const { chart, right, along, strips } = layout;
  return (
    <g>
      {strips.map(({ night: index, y }) => {
        const night = data.nights[index]!;
        const day = fitting(chart.x - 14, [night.short, night.short.split(' ')[0]!], 11, true) ?? '';
        const back = fitting(right.w, backTexts(night, t));
        return (
          <g
            data-act={`night:${index}`}
            data-thing={`night/${index}`}
            role="button"
            tabindex={0}
            aria-label={t('Open {0}', night.label)}
          >
            <title>{t('Open {0}', night.label)}</title>
            <T x={chart.x - 8} y={y + 12} anchor="end" bold>
              {day}
            </T>
            <rect class="strip" x={r(chart.x)} y={r(y)} width={r(chart.w)} height="16" />
            {data.bays.map(bay => {
              const part =
                bay.night === index && data.works[bay.work]!.runway === view.runway ? along.part(bay.x) : undefined;
              if (!part) return null;
              const width = part[1] - part[0];
              const range = bay.soak
                ? minuteRange(bay.soak.least.seconds, bay.soak.greatest.seconds, limitOf(bay, 'soak'))
                : '';
              const text = fitting(width - 18, [range && `${range} min`, range]);
              const w = text ? textWidth(text) : 0;
              const x = (part[0] + part[1]) / 2 - (text ? 6 : 0);
              if (text) room.take(boxOf(text, x, y + 12, 'middle'));
              return (
                <>
                  <rect class="strip-bay" x={r(part[0])} y={r(y)} width={r(width)} height="16" />
                  {text && (
                    <T x={x} y={y + 12} anchor="middle">
                      {text}
                    </T>
                  )}
                  {width > 14 && <Sign kind={bay.state} x={x + (text ? w / 2 + 8 : 0)} y={y + 8} size={9} />}
                </>
              );
            })}
            <T x={right.x} y={y + 12} tone="quiet">
              {back ?? ''}
            </T>
          </g>
        );
      })}
    </g>
  );
}

/** What moves with the time control: wet ground, machines and their tracks, the line of the moment; codes and clock as words. */
export function Moment(props: SheetProps & { readonly layer: Layer }) {
  return props.layer === 'marks' ? <MomentMarks {...props} /> : <MomentWords {...props} />;
}

/** The machines on the runway from left to right, with where their codes stand. */
function drivingAt({ data, view, layout: { along, chart } }: SheetProps) {
  const machines = machinesAt(data, view.night, view.time)
    .filter(each => data.works[data.activities[each.activity]!.work]!.runway === view.runway)
    .filter(each => each.state !== 'away' && along.part([each.x - 30, each.x + 30]))
    .toSorted((a, b) => along.px(a.x) - along.px(b.x));
  const codes = spread(
    machines.map(each => ({ x: along.px(each.x), text: data.machines[each.machine]!.code })),
    chart,
  );
  return machines.map((each, i) => ({
    ...each,
    ...codes[i]!,
    name: data.machines[each.machine]!.name,
    px: codes[i]!.x,
  }));
}

function MomentMarks(props: SheetProps) {
  const { data, view, layout, id } = props;
  const { along, planY, plan, chart, right, timeY, span } = layout;
  const wet = wetAt(data, view.night, view.time)
    .map(
      ({ x, y }) =>
        `M${r(along.px(x[0]))} ${r(planY(y[0]))}H${r(along.px(x[1]))}V${r(planY(y[1]))}H${r(along.px(x[0]))}Z`,
    )
    .join('');
  const driving = drivingAt(props);
  const y = timeY(view.time);
  return (
    <g>
      <g clip-path={`url(#${id}-plan)`}>
        <path class="wet" d={wet} opacity="0.62" clip-path={`url(#${id}-ground)`} />
        {trails(data, view).map(({ does, lanes }) => (
          <path
            class={`trail ${does}`}
            d={lanes.map(({ x, y: at }) => `M${r(along.px(x[0]))} ${r(planY(at))}H${r(along.px(x[1]))}`).join('')}
          />
        ))}
      </g>
      {driving.map(({ machine, name, px, y: offset, dir, at }) => {
        const my = planY(offset);
        return (
          <To thing={`machine/${machine}`} label={name}>
            <path class="leader" d={`M${r(px)} ${r(my)}V${r(plan.y + plan.h)}L${r(at)} ${r(plan.below - 10)}`} />
            <Machine kind={data.machines[machine]!.kind} x={px} y={my} dir={dir} />
          </To>
        );
      })}
      {isShown(view.time, span) && (
        <g>
          <path
            class="now"
            d={`M${r(chart.x)} ${r(y)}H${r(chart.x + chart.w)}M${r(right.x)} ${r(y)}H${r(right.x + right.w)}`}
          />
          {driving.map(({ machine, px }) => (
            <circle class={`machine m-${data.machines[machine]!.kind}`} cx={r(px)} cy={r(y)} r="4" />
          ))}
        </g>
      )}
    </g>
  );
}

function isShown(time: number, [from, to]: Layout['span']): boolean {
  return time >= from && time <= to;
}

function MomentWords(props: SheetProps) {
  const { data, view, layout, t = english } = props;
  const { plan, chart, timeY, span, time } = layout;
  const night = data.nights[view.night]!;
  const driving = drivingAt(props);
  const away = data.machines.filter((_, i) => !driving.some(each => each.machine === i)).map(each => each.code);
  const off = offLabel(away, driving, chart, t);
  const shownTime = isShown(view.time, span);
  const y = timeY(view.time);
  const label = clockText(night, view.time);
  const w = textWidth(label, 12, true) + 10;
  return (
    <g>
      {driving.map(({ machine, name, at, text }) => (
        <To thing={`machine/${machine}`} label={name}>
          <T x={at} y={plan.below} anchor="middle" bold>
            {text}
          </T>
        </To>
      ))}
      {off && (
        <T x={off.x} y={plan.below} anchor={off.anchor} tone="quiet">
          {off.text}
        </T>
      )}
      {hoursOf(night, layout).map(at =>
        // Not under the label of the moment.
        shownTime && Math.abs(timeY(at) - y) < 16 ? null : (
          <T x={chart.x - 8} y={timeY(at) + 4} anchor="end" tone="quiet">
            {clockText(night, at)}
          </T>
        ),
      )}
      {shownTime && (
        <g>
          <rect
            class="plate"
            x={r(chart.x - w - 5)}
            y={r(Math.min(time.y + time.h - 8, y) - 12)}
            width={r(w + 2)}
            height="24"
          />
          <rect
            class="pill"
            x={r(chart.x - w - 3)}
            y={r(Math.min(time.y + time.h - 8, y) - 8)}
            width={r(w)}
            height="16"
            rx="2"
          />
          <T x={chart.x - 8} y={Math.min(time.y + time.h - 8, y) + 4} anchor="end" size={12} bold tone="chip">
            {label}
          </T>
        </g>
      )}
    </g>
  );
}

/** Which machines are off the runway: at the right end of the row of codes, else at the left, where there is room. */
function offLabel(
  away: readonly string[],
  codes: readonly { readonly at: number; readonly text: string }[],
  { x, w }: { readonly x: number; readonly w: number },
  t: Translate,
): { readonly text: string; readonly x: number; readonly anchor: 'start' | 'end' } | undefined {
  if (away.length === 0) return undefined;
  const half = (text: string): number => textWidth(text, 11, true) / 2 + 8;
  const [first, last] = [codes[0], codes.at(-1)];
  const right = last ? x + w - last.at - half(last.text) : w;
  const left = first ? first.at - half(first.text) - x : w;
  const wordings = [t('off the runway: {0}', away.join(' ')), t('off: {0}', away.join(' '))];
  for (const text of wordings) {
    if (textWidth(text) <= right) return { text, x: x + w, anchor: 'end' };
    if (textWidth(text) <= left) return { text, x, anchor: 'start' };
  }
  return undefined;
}

/** Labels on a line, moved apart so that none covers another. */
function spread(
  labels: readonly { readonly x: number; readonly text: string }[],
  { x, w }: { readonly x: number; readonly w: number },
) {
  const placed: { x: number; at: number; text: string }[] = [];
  let free = x - 20;
  for (const label of labels) {
    const half = textWidth(label.text, 11, true) / 2;
    const at = Math.max(label.x, free + half);
    placed.push({ ...label, at });
    free = at + half + 5;
  }
  // What was pushed beyond the right edge comes back, and pushes the others.
  let limit = x + w + 10;
  for (const label of placed.toReversed()) {
    const half = textWidth(label.text, 11, true) / 2;
    label.at = Math.min(label.at, limit - half);
    limit = label.at - half - 5;
  }
  return placed;
}

/** Lanes gone over so far by what is under way. */
function trails(data: PictureData, view: SheetView) {
  return data.activities
    .filter(
      each =>
        each.night === view.night &&
        view.time >= each.start &&
        view.time < each.end &&
        data.works[each.work]!.runway === view.runway,
    )
    .flatMap(each => each.runs)
    .map(run => ({
      does: run.does,
      lanes: run.passes
        .filter(pass => pass[5] < view.time)
        .map(([x0, x1, y, , , start, end]) => ({
          x: [x0, view.time >= end ? x1 : x0 + ((x1 - x0) * (view.time - start)) / (end - start)] as const,
          y,
        })),
    }));
}
