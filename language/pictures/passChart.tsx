/**
 * The pass chart: chainage across, the clock down, one line for each pass of each machine. Between spraying and the first
 * tool the product stands as a band; the closure, the hand-back and the runway's return are lines across.
 */
import type { Range } from '../tracks/track.ts';
import type { ActivityPicture, BayPicture, NightPicture, RunPicture } from './data.ts';
import type { Layout } from './layout.ts';
import { clockText, clockTicks, duration, limitOf, minuteRange, misses } from './minutes.ts';
import { once } from './once.ts';
import { Plated, r, Sign, T, To } from './parts.tsx';
import type { FigureProps } from './plan.tsx';
import { boxOf, cut, fitting, textWidth } from './text.ts';
import { codeOfBay, nameOfBay } from './things.ts';
import type { Translate } from './words.ts';

/** Bays of the night that are in the picture. */
function baysShown({ data, view, layout }: FigureProps) {
  return data.bays
    .map((bay, index) => ({ bay, index }))
    .filter(
      ({ bay }) => bay.night === view.night && data.works[bay.work]!.runway === view.runway && layout.along.part(bay.x),
    );
}

/** The lines, and the product that stands between them. */
export function PassChartMarks(props: FigureProps) {
  const { data, view, layout, id } = props;
  const night = data.nights[view.night]!;
  return (
    <g>
      <Hours night={night} layout={layout} />
      <ReserveBand night={night} layout={layout} id={id} />
      <g clip-path={`url(#${id}-time)`}>
        {baysShown(props).map(({ bay, index }) => (
          <To thing={`bay/${index}`} label={nameOfBay(data, bay)}>
            <Standing bay={bay} layout={layout} id={id} />
          </To>
        ))}
        {data.activities.map((activity, i) =>
          activity.night !== view.night || data.works[activity.work]!.runway !== view.runway ? null : (
            <To thing={`activity/${i}`} label={`${activity.step}, ${data.works[activity.work]!.name} ${activity.bay}`}>
              <Passes activity={activity} layout={layout} />
            </To>
          ),
        )}
      </g>
      <ClosureLines night={night} layout={layout} />
    </g>
  );
}

/** Names of bays and steps, how long the product stands, when the runway is back. */
export function PassChartWords(props: FigureProps) {
  const { data, view, layout, t } = props;
  const { chart, span, along } = layout;
  const night = data.nights[view.night]!;
  const title = t('Pass chart, {0}', night.label);
  const part =
    span[1] - span[0] < night.end - night.start - 1
      ? t('{0} to {1}', clockText(night, span[0]), clockText(night, span[1]))
      : t('chainage as above, time runs down');
  const beside = chart.x + chart.w - 12 - textWidth(title, 13, true) - 8 - 18;
  const unseen = data.bays
    .filter(bay => bay.night === view.night && (data.works[bay.work]!.runway !== view.runway || !along.part(bay.x)))
    .map(bay => codeOfBay(data, bay));
  const elsewhere =
    unseen.length === 0
      ? []
      : [t('chainage as above; not shown: {0}', unseen.join(', ')), t('not shown: {0}', unseen.join(', '))];
  return (
    <g>
      <T x={12} y={layout.time.title} size={13} bold>
        {cut(title, chart.x + chart.w - 12 - 18, 13, true)}
      </T>
      <T x={12 + textWidth(title, 13, true) + 8} y={layout.time.title} tone="quiet">
        {fitting(beside, [...elsewhere, part, t('time runs down')]) ?? ''}
      </T>
      <Key {...props} />
      <Labels {...props} night={night} bays={baysShown(props).map(each => each.bay)} />
      <ClosureWords {...props} night={night} />
    </g>
  );
}

// ── passes ───────────────────────────────────────────────────────────────────────────────────────────────────────

function Passes({ activity, layout }: { activity: ActivityPicture; layout: Layout }) {
  const shown = activity.runs.filter((run, i) => i === 0 || !follows(run, activity.runs[0]!, layout));
  return (
    <>
      {shown.map(run => (
        <path class={`pass ${run.does}`} d={passPath(run, layout)} />
      ))}
    </>
  );
}

/** Machines of a convoy closer than a line's width are one line. */
function follows(run: RunPicture, leader: RunPicture, { timeY }: Layout): boolean {
  const [a, b] = [run.passes[0], leader.passes[0]];
  return a !== undefined && b !== undefined && Math.abs(timeY(a[5]) - timeY(b[5])) < 1.5;
}

/** Passes as lines; turns bulge past the lane's end as far as they really do. */
function passPath({ passes, turns }: RunPicture, { along, timeY }: Layout): string {
  const lines = passes.map(
    ([x0, x1, , , , start, end]) => `M${r(along.px(x0))} ${r(timeY(start))}L${r(along.px(x1))} ${r(timeY(end))}`,
  );
  const bulges = turns.map(([x, beyond, , , start, end]) => {
    const [at, out] = [along.px(x), along.px(beyond)];
    return `M${r(at)} ${r(timeY(start))}Q${r(2 * out - at)} ${r(timeY((start + end) / 2))} ${r(at)} ${r(timeY(end))}`;
  });
  return [...lines, ...bulges].join('');
}

// ── the product that stands ──────────────────────────────────────────────────────────────────────────────────────

/** Whether the tool comes too soon somewhere in a bay, whatever else it misses. */
function soaksTooShort(bay: BayPicture): boolean {
  return bay.soak !== null && misses(bay.soak.least.seconds, limitOf(bay, 'soak'));
}

/** Edges of the band at places along a bay: product first and last, tool first, rinse last. */
interface Edge {
  readonly x: number;
  readonly first: number;
  readonly full: number;
  readonly tool: number;
  readonly rinsed: number;
}

/** The band's edges at every place where one of them bends. */
export const edgesOf = once(({ wet }: BayPicture): readonly Edge[] => {
  const xs = [...new Set(wet.flatMap(strip => [strip.x[0], (strip.x[0] + strip.x[1]) / 2, strip.x[1]]))].sort(
    (a, b) => a - b,
  );
  return xs.flatMap(x => {
    const here = wet.filter(strip => x >= strip.x[0] && x <= strip.x[1]);
    if (here.length === 0) return [];
    const at = (strip: (typeof here)[number], times: Range | null): number =>
      times === null ? Number.NaN : times[0] + ((times[1] - times[0]) * (x - strip.x[0])) / (strip.x[1] - strip.x[0]);
    const each = (pick: (strip: (typeof here)[number]) => Range | null) =>
      here.map(strip => at(strip, pick(strip))).filter(Number.isFinite);
    const first = Math.min(...each(strip => strip.first));
    const full = Math.max(...each(strip => strip.full ?? strip.first));
    const tool = Math.min(...each(strip => strip.tool));
    const rinsed = Math.max(...each(strip => strip.rinsed));
    return [
      { x, first, full, tool: Number.isFinite(tool) ? tool : full, rinsed: Number.isFinite(rinsed) ? rinsed : full },
    ];
  });
});

function Standing({ bay, layout, id }: { bay: BayPicture; layout: Layout; id: string }) {
  const edges = edgesOf(bay);
  if (edges.length < 2) return null;
  const { along, timeY } = layout;
  const band = (upper: (edge: Edge) => number, lower: (edge: Edge) => number): string => {
    const there = edges.map(edge => `${r(along.px(edge.x))} ${r(timeY(upper(edge)))}`);
    const back = edges
      .toReversed()
      .map(edge => `${r(along.px(edge.x))} ${r(timeY(Math.max(upper(edge), lower(edge))))}`);
    return `M${[...there, ...back].join('L')}Z`;
  };
  const line = (at: (edge: Edge) => number): string =>
    `M${edges.map(edge => `${r(along.px(edge.x))} ${r(timeY(at(edge)))}`).join('L')}`;
  const { soak, residence } = bay.limits;
  const over = edges.some(edge => misses(edge.rinsed - edge.first, limitOf(bay, 'residence')));
  const under = soaksTooShort(bay);
  return (
    <>
      <path
        class="leaving"
        d={band(
          edge => edge.first,
          edge => edge.rinsed,
        )}
      />
      <path
        class="standing"
        d={band(
          edge => edge.full,
          edge => edge.tool,
        )}
      />
      {over && residence !== undefined && (
        <Missed
          hatch={`${id}-over`}
          d={band(
            edge => edge.first + residence,
            edge => edge.rinsed,
          )}
        />
      )}
      {under && soak !== undefined && (
        <Missed
          hatch={`${id}-under`}
          d={band(
            edge => edge.tool,
            edge => edge.full + soak,
          )}
        />
      )}
      {soak !== undefined && <path class="limit least" d={line(edge => edge.full + soak)} />}
      {residence !== undefined && <path class="limit most" d={line(edge => edge.first + residence)} />}
    </>
  );
}

/** What is beyond a limit: pale, hatched and outlined. */
function Missed({ d, hatch }: { d: string; hatch: string }) {
  return (
    <>
      <path class="missed" d={d} />
      <path fill={`url(#${hatch})`} d={d} />
      <path class="miss-edge" d={d} />
    </>
  );
}

// ── the clock ────────────────────────────────────────────────────────────────────────────────────────────────────

/** Seconds between two lines of the clock: as close as their numbers can stand. */
export function tickStep({ timeY, span }: Layout): number {
  const perHour = Math.abs(timeY(span[0] + 3600) - timeY(span[0]));
  return [300, 600, 900, 1800, 3600, 7200, 14_400].find(step => (perHour * step) / 3600 >= 26) ?? 21_600;
}

/** Moments of the clock's lines that are seen. */
export function hoursOf(night: NightPicture, layout: Layout): readonly number[] {
  const { span } = layout;
  return clockTicks(night, tickStep(layout)).filter(at => at >= span[0] - 1e-6 && at <= span[1] + 1e-6);
}

function Hours({ night, layout }: { night: NightPicture; layout: Layout }) {
  const { chart, right, timeY, time } = layout;
  const lines = hoursOf(night, layout).map(
    at =>
      `M${r(chart.x)} ${r(timeY(at))}H${r(chart.x + chart.w)}M${r(right.x)} ${r(timeY(at))}H${r(right.x + right.w)}`,
  );
  return <path class="rule" d={`${lines.join('')}M${r(chart.x)} ${r(time.y)}V${r(time.y + time.h)}`} />;
}

function ReserveBand({ night, layout, id }: { night: NightPicture; layout: Layout; id: string }) {
  if (night.handBack === undefined) return null;
  const { chart, right, timeY, time } = layout;
  const [y0, y1] = [night.handBack, night.end].map(at => Math.min(time.y + time.h, Math.max(time.y, timeY(at)))) as [
    number,
    number,
  ];
  const box = (x: number, w: number) => (
    <rect fill={`url(#${id}-reserve)`} x={r(x)} y={r(y0)} width={r(w)} height={r(Math.max(0, y1 - y0))} />
  );
  return (
    <>
      {box(chart.x, chart.w)}
      {box(right.x, right.w)}
    </>
  );
}

/** Closure from and to, hand-back due, runway back: across both figures that share the clock. */
function ClosureLines({ layout, night }: { night: NightPicture; layout: Layout }) {
  const { chart, right, timeY } = layout;
  const across = (at: number, name: string) =>
    isShown(at, layout) ? (
      <path
        class={name}
        d={`M${r(chart.x - 4)} ${r(timeY(at))}H${r(chart.x + chart.w)}M${r(right.x)} ${r(timeY(at))}H${r(right.x + right.w)}`}
      />
    ) : null;
  return (
    <g>
      {across(night.start, 'heavy')}
      {across(night.end, 'heavy')}
      {night.handBack !== undefined && across(night.handBack, 'due')}
      {across(night.clear, 'back')}
    </g>
  );
}

function isShown(at: number, { span }: Layout): boolean {
  return at >= span[0] - 1 && at <= span[1] + 1;
}

function ClosureWords({ layout, room, t, night }: FigureProps & { readonly night: NightPicture }) {
  const { chart, timeY, time } = layout;
  const spare = night.handBack === undefined ? undefined : night.handBack - night.clear;
  const label = (at: number, wordings: readonly string[], bold: boolean, bad = false) => {
    if (!isShown(at, layout)) return null;
    const text = fitting(chart.w - 12, wordings, 11, bold);
    if (!text) return null;
    const w = textWidth(text, 11, bold);
    const above = timeY(at) - 4;
    const below = timeY(at) + 12;
    const spots = [chart.x + 6, chart.x + chart.w - w - 6, chart.x + (chart.w - w) / 2].flatMap(x =>
      [above, below].map(y => ({ x, y })),
    );
    const spot = spots.find(
      ({ x, y }) => y - 9 > time.y - 1 && y < time.y + time.h && room.take(boxOf(text, x, y, 'start', 11, bold)),
    );
    return spot ? (
      <Plated x={spot.x + w / 2} y={spot.y} w={w} bold={bold} {...(bad && { tone: 'bad' })}>
        {text}
      </Plated>
    ) : null;
  };
  return (
    <g>
      {night.handBack !== undefined && label(night.clear, backTexts(night, t), true, spare! < 0)}
      {night.handBack !== undefined &&
        label(
          night.handBack,
          [
            t('due {0}: reserve {1}', clockText(night, night.handBack), duration(night.end - night.handBack)),
            t('due {0}', clockText(night, night.handBack)),
          ],
          false,
        )}
      {night.handBack === undefined &&
        label(night.clear, [t('ends after {0}', duration(night.clear - night.start))], true)}
    </g>
  );
}

// ── words ────────────────────────────────────────────────────────────────────────────────────────────────────────

/** The line above the chart: what the lines mean. */
function Key({ data, layout, view, t }: FigureProps) {
  const y = layout.time.y - 9;
  const { chart } = layout;
  const bay =
    data.bays.find(each => each.night === view.night && each.limits.soak !== undefined) ??
    data.bays.find(each => each.night === view.night);
  const does = new Set(
    data.activities.filter(each => each.night === view.night).flatMap(each => each.runs.map(run => run.does)),
  );
  const entries = [
    ...(does.has('apply') ? [{ name: 'pass apply', text: t('spraying') }] : []),
    ...(bay?.limits.soak !== undefined ? [{ name: 'limit least', text: t('soak over') }] : []),
    ...(bay?.limits.residence !== undefined ? [{ name: 'limit most', text: t('residence over') }] : []),
    ...(does.has('contact') ? [{ name: 'pass contact', text: t('brooms') }] : []),
    ...(does.has('jet') ? [{ name: 'pass jet', text: t('water jets') }] : []),
    ...(does.has('rinse') ? [{ name: 'pass rinse', text: t('rinsing') }] : []),
    ...(does.has('sweep') || does.has('pickup') ? [{ name: 'pass sweep', text: t('sweepers') }] : []),
  ];
  let x = chart.x;
  const end = chart.x + chart.w;
  return (
    <g>
      {entries.map(({ name, text }) => {
        const w = 20 + 4 + textWidth(text) + 12;
        if (x + w - 12 > end) return null;
        const at = x;
        x += w;
        return (
          <>
            <path class={name} d={`M${r(at)} ${r(y - 4)}h20`} />
            <T x={at + 24} y={y} tone="quiet">
              {text}
            </T>
          </>
        );
      })}
    </g>
  );
}

/** Names of bays and steps, and how long the product stands, on plates where lines are dense. */
function Labels({
  bays,
  ...props
}: FigureProps & { readonly night: NightPicture; readonly bays: readonly BayPicture[] }) {
  return <g>{bays.map(bay => bayLabels(bay, props))}</g>;
}

function bayLabels(bay: BayPicture, { data, layout, room, view: { night }, t }: FigureProps) {
  const { along, timeY, time, span } = layout;
  const part = along.part(bay.x)!;
  const width = part[1] - part[0] - 8;
  const x = (part[0] + part[1]) / 2;
  const own = data.activities.filter(each => each.night === night && each.work === bay.work && each.bay === bay.number);
  const driven = own.filter(each => each.runs.length > 0 && each.does !== 'wash-down');
  const top = Math.min(...driven.map(each => each.start));
  const labels = [];
  const name = fitting(width + 24, [nameOfBay(data, bay), codeOfBay(data, bay)], 11, true);
  const bottom = Math.max(...driven.map(each => each.end));
  // Above its first line, or below its last where there is no room above.
  const nameY = [timeY(top) - 4, timeY(bottom) + 12].find(
    y =>
      y - 9 > time.y && y < time.y + time.h && name !== undefined && room.take(boxOf(name, x, y, 'middle', 11, true)),
  );
  if (name && nameY !== undefined) {
    labels.push(
      <Plated x={x} y={nameY} w={textWidth(name, 11, true)} bold>
        {name}
      </Plated>,
    );
  }
  const edges = edgesOf(bay);
  if (bay.soak && edges.length > 1) {
    const bad = soaksTooShort(bay);
    const range = minuteRange(bay.soak.least.seconds, bay.soak.greatest.seconds, limitOf(bay, 'soak'));
    const text = fitting(width - 14, [t('soak {0} min', range), `${range} min`, range], 11, true);
    const from = Math.max(span[0], Math.max(...edges.map(edge => edge.full)));
    const to = Math.min(span[1], Math.min(...edges.map(edge => edge.tool)));
    const y = timeY((from + to) / 2) + 4;
    if (text && timeY(to) - timeY(from) > 12) {
      const w = textWidth(text, 11, true);
      const at = x - 7;
      const box = boxOf(text, at, y, 'middle', 11, true);
      if (room.take({ ...box, w: box.w + 14 })) {
        labels.push(
          <>
            <Plated x={at} y={y} w={w} ground="band" bold halo {...(bad && { tone: 'bad' })}>
              {text}
            </Plated>
            <Sign kind={bad ? 'under' : 'kept'} x={at + w / 2 + 9} y={y - 4} size={10} />
          </>,
        );
      }
    }
    if (bay.state === 'over') {
      const limit = bay.limits.residence!;
      const at = Math.min(...edges.map(edge => edge.first + limit));
      const over = t('{0} min passed', minuteRange(limit, limit));
      const right = part[1] + 5;
      const ly = timeY(at) + 12;
      if (
        at >= span[0] &&
        at <= span[1] &&
        right + textWidth(over, 11, true) < layout.chart.x + layout.chart.w &&
        room.take(boxOf(over, right, ly, 'start', 11, true))
      ) {
        labels.push(
          <T x={right} y={ly} bold tone="bad" halo>
            {over}
          </T>,
        );
      }
    }
  }
  for (const activity of driven) {
    const [from, to] = [Math.max(span[0], activity.start), Math.min(span[1], activity.end)];
    const height = timeY(to) - timeY(from);
    const text = fitting(width, [activity.step, activity.step.toLowerCase()]);
    if (!text || height < 15) continue;
    const y = timeY((from + to) / 2) + 4;
    const w = textWidth(text);
    if (!room.take(boxOf(text, x, y, 'middle'))) continue;
    labels.push(
      <Plated x={x} y={y} w={w}>
        {text}
      </Plated>,
    );
  }
  return labels;
}

/** When the runway is back, and what is to spare; shorter without that. */
export function backTexts(night: NightPicture, t: Translate): readonly string[] {
  const at = clockText(night, night.clear);
  const spare = night.handBack === undefined ? undefined : night.handBack - night.clear;
  const whole =
    spare === undefined
      ? []
      : [spare >= 0 ? t('back {0}, {1} spare', at, duration(spare)) : t('back {0}, {1} late', at, duration(-spare))];
  return [...whole, t('back {0}', at)];
}

/** Part of a picture that a stretch of time takes. */
export function timePart({ timeY, span }: Layout, [a, b]: Range): Range | undefined {
  const [from, to] = [Math.max(a, span[0]), Math.min(b, span[1])];
  return to > from ? [timeY(from), timeY(to)] : undefined;
}
