/** The runway from above: paint in true dimensions, rubber by heaviness, bays, the places that matter most. */
import type { Outline, PictureData, Ruler, RunwayPicture, TimeSpot } from './data.ts';
import type { Along, Layout, SheetView } from './layout.ts';
import { inUnit, lengthUnit, offsetText } from './lengths.ts';
import { markingsOf } from './markings.ts';
import { type Limit, limitOf, minutes, misses } from './minutes.ts';
import { Ring, r, Sign, T, To } from './parts.tsx';
import { handleBoxes } from './spots.ts';
import { type Box, boxOf, fitting, type Room, textWidth } from './text.ts';
import { codeOfBay, nameOfBay, stateText } from './things.ts';
import type { Translate } from './words.ts';

export interface FigureProps {
  readonly data: PictureData;
  readonly view: SheetView;
  readonly layout: Layout;
  readonly room: Room;
  readonly t: Translate;
  /** In a preview: labels keep out of the way of its handles. */
  readonly live?: boolean;
  /** Names of hatches and clips are made with it. */
  readonly id: string;
}

/** What lies on the ground. */
export function PlanMarks({ data, view, layout, t, id }: FigureProps) {
  const { along, planY } = layout;
  const runway = data.runways[view.runway]!;
  return (
    <g clip-path={`url(#${id}-plan)`}>
      <To thing={`runway/${view.runway}`} label={t('Runway {0}', runway.name)}>
        <Pavement runway={runway} layout={layout} />
      </To>
      {markingsOf(runway).map(({ loops }) => (
        <path class="paint" fill-rule="evenodd" d={loops.map(loop => polygon(loop, along, planY)).join('')} />
      ))}
      {data.deposits.map((deposit, i) =>
        deposit.runway !== view.runway ? null : (
          <To thing={`deposit/${i}`} label={`${deposit.name}, ${deposit.buildUp ?? t('build-up not said')}`}>
            <path class="rubber-ground" d={polygon(deposit.outline, along, planY)} />
            <path fill={`url(#${id}-w${deposit.weight})`} d={polygon(deposit.outline, along, planY)} />
          </To>
        ),
      )}
    </g>
  );
}

/** What is said about it: names, axes, the places that matter most. */
export function PlanWords(props: FigureProps) {
  const { data, view, layout, room, t, live } = props;
  const { along, plan, planY, chart } = layout;
  // What is drawn over the labels is kept free first.
  if (live) for (const box of handleBoxes(data, view, layout)) room.keep(box);
  for (const { spot } of worstSpots(data, view))
    room.keep({ x: along.px(spot.x) - 6, y: planY(spot.y) - 6, w: 12, h: 12 });
  const runway = data.runways[view.runway]!;
  const title = t('Runway from above');
  const unit = lengthUnit(data);
  const rulers = [...new Set(along.segments.map(each => each.ruler))].map(i => runway.rulers[i]?.end);
  const from = rulers.length > 1 ? t('from each threshold') : t('from threshold {0}', rulers[0] ?? '');
  const beside = chart.x + chart.w - 12 - textWidth(title, 13, true) - 8 - 18;
  const factor = t('across ×{0}', factorText(layout.exaggeration.plan));
  return (
    <g>
      <T x={12} y={plan.title} size={13} bold>
        {title}
      </T>
      <g data-act="across" role="button" tabindex={0} aria-label={t('Lateral exaggeration: {0}. Change it.', factor)}>
        <T x={12 + textWidth(title, 13, true) + 8} y={plan.title} tone="quiet">
          {fitting(beside, [`${unit.name} ${from}; ${factor}`, `${from}; ${factor}`, factor]) ?? ''}
        </T>
      </g>
      <RulerRow {...props} />
      <Offsets {...props} values={offsetsOf(runway, layout.reach)} toY={planY} top={plan.y} bottom={plan.y + plan.h} />
      <BayNames {...props} />
      <WorstPlaces {...props} />
      <DepositWords {...props} />
      <WorstRings {...props} />
    </g>
  );
}

/** How heavy each deposit is, below it where there is room. */
function DepositWords({ data, view, layout, room }: FigureProps) {
  const { along, planY } = layout;
  const runway = data.runways[view.runway]!;
  return (
    <g>
      {data.deposits.map(deposit => {
        if (deposit.runway !== view.runway || !deposit.buildUp) return null;
        const part = along.part(extent(deposit.outline));
        if (!part) return null;
        const lowest = Math.max(...deposit.outline.map(([, y]) => y));
        const y = planY(lowest) + 12;
        const x = (part[0] + part[1]) / 2;
        const word = fitting(part[1] - part[0] + 20, [deposit.buildUp]);
        if (!word || y > planY(runway.width / 2) - 2 || !room.take(boxOf(word, x, y, 'middle'))) return null;
        return (
          <T x={x} y={y} anchor="middle" halo>
            {word}
          </T>
        );
      })}
    </g>
  );
}

/** Two significant digits: `3.4`, `21`. */
export function factorText(value: number): string {
  return value < 10 ? String(Math.round(value * 10) / 10) : String(Math.round(value));
}

export function polygon(outline: Outline, along: Along, toY: (y: number) => number): string {
  return `M${outline.map(([x, y]) => `${r(along.px(x))} ${r(toY(y))}`).join('L')}Z`;
}

function extent(outline: Outline): readonly [number, number] {
  const xs = outline.map(([x]) => x);
  return [Math.min(...xs), Math.max(...xs)];
}

/** One piece for each stretch; torn where the runway goes on. */
function Pavement({ runway, layout }: { runway: RunwayPicture; layout: Layout }) {
  const half = runway.width / 2;
  const [top, bottom] = [layout.planY(-half), layout.planY(half)];
  const pieces = layout.along.segments.map(({ x, px }) => {
    const tornLeft = x[0] > 0.5;
    const tornRight = runway.length === undefined || x[1] < runway.length - 0.5;
    return `M${r(px[0])} ${r(top)}H${r(px[1])}${edge(px[1], top, bottom, tornRight)}H${r(px[0])}${edge(px[0], bottom, top, tornLeft)}Z`;
  });
  return <path class="pavement" d={pieces.join('')} />;
}

function edge(x: number, from: number, to: number, torn: boolean): string {
  if (!torn) return `V${r(to)}`;
  const teeth = Math.max(2, Math.round(Math.abs(to - from) / 14)) * 2;
  return Array.from({ length: teeth }, (_, i) => {
    const y = from + ((to - from) * (i + 1)) / teeth;
    return `L${r(x + (i % 2 === 0 ? -3.5 : 0))} ${r(y)}`;
  }).join('');
}

// ── axes ─────────────────────────────────────────────────────────────────────────────────────────────────────────

/** Chainages above the pavement: where bays end first, then round numbers where there is room. */
function RulerRow({ data, view, layout, room }: FigureProps) {
  const { along, plan } = layout;
  const runway = data.runways[view.runway]!;
  const unit = lengthUnit(data);
  const marks: { readonly x: number; readonly text: string; readonly quiet: boolean }[] = [];
  const put = (x: number, segment: Along['segments'][number], quiet: boolean): void => {
    const ruler = runway.rulers[segment.ruler];
    if (!ruler || x < segment.x[0] - 0.01 || x > segment.x[1] + 0.01) return;
    const text = inUnit(ruler.dir * (x - ruler.zero), unit);
    const at = segment.px[0] + (x - segment.x[0]) * along.scale;
    if (room.take(boxOf(text, at, plan.ruler, 'middle'), 5)) marks.push({ x: at, text, quiet });
  };
  for (const segment of along.segments) {
    const ends = data.bays.flatMap(bay => (data.works[bay.work]!.runway === view.runway ? bay.x : []));
    for (const x of [...new Set(ends.map(each => Math.round(each * 100) / 100))]) put(x, segment, false);
  }
  for (const segment of along.segments) {
    const ruler = runway.rulers[segment.ruler];
    if (!ruler) continue;
    const steps = unit.steps.map(each => each * unit.metres);
    const step = steps.find(each => each * along.scale > 46) ?? steps.at(-1)!;
    const chainage = segment.x.map(x => ruler.dir * (x - ruler.zero)).sort((a, b) => a - b);
    for (let s = Math.ceil(chainage[0]! / step) * step; s <= chainage[1]!; s += step)
      put(ruler.zero + ruler.dir * s, segment, true);
  }
  return (
    <g>
      {marks.map(({ x, text, quiet }) => (
        <>
          <path class="axis" d={`M${r(x)} ${r(plan.y - 4)}V${r(plan.y)}`} />
          <T x={x} y={plan.ruler} anchor="middle" {...(quiet && { tone: 'quiet' })}>
            {text}
          </T>
        </>
      ))}
    </g>
  );
}

/** Offsets worth a mark: the edges of the pavement, of the ground, the centreline. */
export function offsetsOf(runway: RunwayPicture, reach: number): readonly number[] {
  return [0, -reach, reach, -runway.width / 2, runway.width / 2];
}

export function Offsets({
  data,
  view,
  layout,
  room,
  values,
  toY,
  top,
  bottom,
}: FigureProps & {
  readonly values: readonly number[];
  readonly toY: (y: number) => number;
  readonly top: number;
  readonly bottom: number;
}) {
  const { segments } = layout.along;
  const unit = lengthUnit(data);
  const runway = data.runways[view.runway]!;
  const first = runway.rulers[segments[0]?.ruler ?? 0];
  const last = runway.rulers[segments.at(-1)?.ruler ?? 0];
  const side = (ruler: Ruler | undefined, x: number, anchor: 'start' | 'end') =>
    values.map(value => {
      const y = toY(value) + 4;
      const text = value === 0 ? `0 ${unit.name}` : offsetText(value * (ruler?.dir ?? 1), unit);
      if (y < top - 2 || y > bottom + 8 || !room.take(boxOf(text, x, y, anchor), 1)) return null;
      return (
        <>
          <path class="axis" d={anchor === 'end' ? `M${r(x + 3)} ${r(y - 4)}h5` : `M${r(x - 8)} ${r(y - 4)}h5`} />
          <T x={x} y={y} anchor={anchor} tone="quiet">
            {text}
          </T>
        </>
      );
    });
  return (
    <g>
      {side(first, layout.chart.x - 10, 'end')}
      {first !== last && side(last, layout.chart.x + layout.chart.w + 10, 'start')}
    </g>
  );
}

// ── bays ─────────────────────────────────────────────────────────────────────────────────────────────────────────

function BayNames({ data, view, layout, room, t }: FigureProps) {
  const { along, plan } = layout;
  const runway = data.runways[view.runway]!;
  const thresholds = along.segments.flatMap(segment => {
    const ruler = runway.rulers[segment.ruler];
    if (!ruler || ruler.zero < segment.x[0] - 1 || ruler.zero > segment.x[1] + 1) return [];
    return [
      {
        text: t('thr. {0}', ruler.end),
        x: along.px(ruler.zero),
        anchor: ruler.dir === 1 ? ('start' as const) : ('end' as const),
      },
    ];
  });
  const named = data.bays.flatMap((bay, i) => {
    const part = data.works[bay.work]!.runway === view.runway ? along.part(bay.x) : undefined;
    if (!part) return [];
    const night = bay.night === undefined ? '' : (data.nights[bay.night]?.short.split(' ')[0] ?? '');
    const wordings = [
      `${nameOfBay(data, bay)} ${night}`,
      nameOfBay(data, bay),
      `${codeOfBay(data, bay)} ${night}`,
      codeOfBay(data, bay),
    ];
    return [{ bay, i, part, now: bay.night === view.night, wordings: wordings.map(each => each.trim()) }];
  });
  // All bays in the same wording, the longest that fits those of the usual width.
  const usual = named.map(({ part }) => part[1] - part[0]).sort((a, b) => a - b)[Math.floor(named.length / 4)] ?? 0;
  const level = [0, 1, 2, 3].find(k =>
    named.every(
      ({ wordings, part, now }) =>
        part[1] - part[0] < usual - 1 || textWidth(wordings[k]!, 11, now) <= part[1] - part[0] - 19,
    ),
  );
  const names = named.map(({ bay, i, part, now, wordings }) => {
    const width = part[1] - part[0] - 4;
    const text = fitting(width - 15, wordings.slice(level ?? 3), 11, now);
    if (!text) return null;
    const w = textWidth(text, 11, now) + 14;
    const x = (part[0] + part[1]) / 2 - w / 2;
    if (!room.take({ x, y: plan.names - 9, w, h: 11 })) return null;
    return (
      <To thing={`bay/${i}`} label={`${nameOfBay(data, bay)}: ${stateText(bay, t)}`}>
        <Sign kind={bay.state} x={x + 5} y={plan.names - 4} size={10} />
        <T
          x={x + 14}
          y={plan.names}
          bold={now}
          {...(bay.state !== 'kept' ? { tone: 'bad' } : now ? {} : { tone: 'quiet' })}
        >
          {text}
        </T>
      </To>
    );
  });
  return (
    <g>
      {names}
      {thresholds.map(({ text, x, anchor }) =>
        room.take(boxOf(text, x, plan.names, anchor)) ? (
          <T x={x} y={plan.names} anchor={anchor} tone="quiet">
            {text}
          </T>
        ) : null,
      )}
    </g>
  );
}

interface WorstSpot {
  readonly clock: 'residence' | 'soak';
  readonly spot: TimeSpot;
  readonly limit: Limit;
}

/** The longest residence and the least soak of a runway, by what they have to spare. */
function worstSpots(data: PictureData, view: SheetView): readonly WorstSpot[] {
  const bays = data.bays.filter(bay => data.works[bay.work]!.runway === view.runway);
  const soaks = bays
    .filter(bay => bay.soak)
    .toSorted((a, b) => a.soak!.least.seconds - (a.limits.soak ?? 0) - (b.soak!.least.seconds - (b.limits.soak ?? 0)));
  const stays = bays
    .filter(bay => bay.residence)
    .toSorted(
      (a, b) =>
        b.residence!.greatest.seconds -
        (b.limits.residence ?? 0) -
        (a.residence!.greatest.seconds - (a.limits.residence ?? 0)),
    );
  const [stay, soak] = [stays[0], soaks[0]];
  return [
    ...(stay
      ? [
          {
            clock: 'residence' as const,
            spot: stay.residence!.greatest,
            limit: limitOf(stay, 'residence'),
          },
        ]
      : []),
    ...(soak
      ? [
          {
            clock: 'soak' as const,
            spot: soak.soak!.least,
            limit: limitOf(soak, 'soak'),
          },
        ]
      : []),
  ];
}

/** Rings about the worst places: over the wet ground and the handles. */
export function WorstRings({ data, view, layout }: Pick<FigureProps, 'data' | 'view' | 'layout'>) {
  const { along, planY } = layout;
  return (
    <g pointer-events="none">
      {worstSpots(data, view)
        .filter(({ spot }) => along.part([spot.x - 0.1, spot.x + 0.1]))
        .map(({ spot, limit }) => (
          <Ring x={along.px(spot.x)} y={planY(spot.y)} bad={misses(spot.seconds, limit)} />
        ))}
    </g>
  );
}

/** What the rings cover. */
export function ringBoxes({ data, view, layout }: Pick<FigureProps, 'data' | 'view' | 'layout'>): readonly Box[] {
  const half = 9;
  return worstSpots(data, view).map(({ spot }) => ({
    x: layout.along.px(spot.x) - half,
    y: layout.planY(spot.y) - half,
    w: 2 * half,
    h: 2 * half,
  }));
}

/** The least soak and the longest residence of the runway, named beside their rings. */
function WorstPlaces({ data, view, layout, room, t }: FigureProps) {
  const { along, planY, plan } = layout;
  const wordings = ({ clock, spot, limit }: WorstSpot): readonly string[] => {
    const min = minutes(spot.seconds, limit);
    return clock === 'residence'
      ? [t('longest residence {0} min', min), t('residence {0} min', min), `${min} min`]
      : [t('least soak {0} min', min), t('soak {0} min', min), `${min} min`];
  };
  const marks = worstSpots(data, view).map(worst => ({
    ...worst,
    bad: misses(worst.spot.seconds, worst.limit),
    texts: wordings(worst),
  }));
  return (
    <g>
      {marks.map(mark => {
        if (!along.part([mark.spot.x - 0.1, mark.spot.x + 0.1])) return null;
        const [x, y] = [along.px(mark.spot.x), planY(mark.spot.y)];
        // Beside the ground where there is room, else on it, close to the ring.
        const [top, bottom] = [planY(-layout.reach), planY(layout.reach)];
        // Further out where handles lie along the edge.
        const outside = [top - 5, top - 13, bottom + 13, bottom + 21].sort((a, b) => Math.abs(a - y) - Math.abs(b - y));
        const close = [y - 11, y + 4, y + 20];
        const place = [...outside, ...close]
          .flatMap(ty =>
            mark.texts.flatMap(text =>
              (
                [
                  ['middle', 0],
                  ['start', ty === y + 4 ? 11 : 3],
                  ['end', ty === y + 4 ? -11 : -3],
                ] as const
              ).map(([anchor, dx]) => ({ text, anchor, x: x + dx, y: ty })),
            ),
          )
          .find(({ text, anchor, x: tx, y: ty }) => {
            const box = boxOf(text, tx, ty, anchor, 11, true);
            if (anchor === 'middle' && ty === y + 4) return false;
            const piece = along.segments.find(({ px }) => box.x > px[0] && box.x + box.w < px[1]);
            return piece !== undefined && box.y > plan.y && box.y + box.h < plan.y + plan.h && room.take(box, 4);
          });
        const led = place !== undefined && outside.includes(place.y) && Math.abs(place.y - y) > 18;
        return (
          <>
            {led && <path class="leader" d={`M${r(x)} ${r(y)}V${r(place.y < y ? place.y + 2 : place.y - 10)}`} />}
            {place && (
              <T x={place.x} y={place.y} anchor={place.anchor} bold halo {...(mark.bad && { tone: 'bad' })}>
                {place.text}
              </T>
            )}
          </>
        );
      })}
    </g>
  );
}
