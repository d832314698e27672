/** The night sheet: machines across, the clock of the pass chart down. What each one does, where, when it fills up. */
import type { ActivityPicture, NightPicture, PictureData, RecallPicture, RunPicture } from './data.ts';
import type { Layout } from './layout.ts';
import { clockText, duration, minutes } from './minutes.ts';
import { Plated, r, T, To } from './parts.tsx';
import { timePart } from './passChart.tsx';
import type { FigureProps } from './plan.tsx';
import { boxOf, cut, fitting, textWidth } from './text.ts';
import { codeOfBay, nameOfBay } from './things.ts';
import type { Translate } from './words.ts';

/** Where the columns stand: machines, people on foot, and the recall line where there is one. */
export interface Columns {
  readonly w: number;
  readonly machine: (index: number) => number;
  readonly foot: number | undefined;
  readonly recall: { readonly x: number; readonly w: number } | undefined;
}

export function columnsOf(data: PictureData, layout: Layout, night: number): Columns {
  const { x, w } = layout.right;
  const onFoot = data.activities.some(
    each => each.night === night && each.runs.length === 0 && each.does !== 'wash-down',
  );
  // In the narrowest sheet the machines need the room; the recall then stands in the verdict and in its table.
  const recall = data.nights[night]?.recall !== undefined && w > 210;
  const recallW = recall ? Math.min(84, Math.max(38, w * 0.16)) : 0;
  const count = data.machines.length + (onFoot ? 1 : 0);
  const each = count === 0 ? w : (w - (recall ? recallW + 8 : 0)) / count;
  return {
    w: each,
    machine: index => x + index * each,
    foot: onFoot ? x + data.machines.length * each : undefined,
    recall: recall ? { x: x + w - recallW, w: recallW } : undefined,
  };
}

/** What happens in the night that is shown, with its places in the picture's data. */
function activitiesOf({ data, view }: FigureProps) {
  return data.activities
    .map((activity, index) => ({ activity, index }))
    .filter(each => each.activity.night === view.night);
}

/** The boxes of the machines and of people on foot, the recall line. */
export function NightSheetMarks(props: FigureProps) {
  const { data, view, layout, t, id } = props;
  const night = data.nights[view.night]!;
  const columns = columnsOf(data, layout, view.night);
  return (
    <g clip-path={`url(#${id}-night)`}>
      {data.machines.map((_, i) => (
        <path
          class="idle"
          d={`M${r(columns.machine(i) + columns.w / 2)} ${r(layout.timeY(night.from))}V${r(layout.timeY(night.clear))}`}
        />
      ))}
      <SetUp night={night} layout={layout} id={id} columns={columns} />
      {activitiesOf(props).map(({ activity, index }) => (
        <To thing={`activity/${index}`} label={tooltip(activity, night, data, t)}>
          {activity.runs.map(run => (
            <Box run={run} activity={activity} layout={layout} columns={columns} id={id} />
          ))}
          {activity.runs.length === 0 && activity.does !== 'wash-down' && columns.foot !== undefined && (
            <OnFoot activity={activity} x={columns.foot} w={columns.w} layout={layout} />
          )}
        </To>
      ))}
      {columns.recall && <Recall night={night} layout={layout} id={id} t={t} at={columns.recall} />}
    </g>
  );
}

/** Their names, the bays they work in, the peak of the recall. */
export function NightSheetWords(props: FigureProps) {
  const { data, view, layout, t } = props;
  const { right, time } = layout;
  const night = data.nights[view.night]!;
  const title = night.clock === undefined ? t('Machines') : t('Night sheet');
  const columns = columnsOf(data, layout, view.night);
  return (
    <g>
      <T x={right.x} y={time.title} size={13} bold>
        {cut(title, right.w, 13, true)}
      </T>
      {columns.recall && (
        <T x={right.x + right.w} y={time.title} anchor="end" tone="quiet">
          {fitting(right.w - textWidth(title, 13, true) - 8, [t('recall, min to clear'), t('recall, min')]) ?? ''}
        </T>
      )}
      <Heads {...props} columns={columns} />
      {columns.recall && <RecallNumbers {...props} night={night} at={columns.recall} />}
      <Words {...props} columns={columns} night={night} activities={activitiesOf(props).map(each => each.activity)} />
    </g>
  );
}

function tooltip(activity: ActivityPicture, night: NightPicture, data: PictureData, t: Translate): string {
  const where = `${data.works[activity.work]!.name} ${activity.bay}`;
  const when = t('{0} to {1}', clockText(night, activity.start), clockText(night, activity.end));
  const waits = activity.waits ? `, ${t('waits for {0}', activity.waits)}` : '';
  return `${activity.step}, ${where}: ${when}${waits}`;
}

/** Names over the columns; where these are narrow, in two rows by turns, each with the room of two columns. */
function Heads({ data, layout, room, t, columns }: FigureProps & { readonly columns: Columns }) {
  const inTwoRows = layout.narrow && columns.w < 40;
  const space = inTwoRows ? 2 * columns.w - 3 : columns.w;
  const fits = data.machines.every(({ name }) => textWidth(name, 11, true) <= space - 4);
  // A code that is cut stands for no machine any more: thinner letters take less room.
  const bold = fits || data.machines.every(({ code }) => textWidth(code, 11, true) <= space - 2);
  const head = (text: string, i: number, x: number, thing?: string, label?: string) => {
    const upper = inTwoRows && i % 2 === 0;
    const y = layout.time.y - (upper ? 18 : 6);
    // What is wider than its column stays in the figure.
    const half = textWidth(text, 11, bold) / 2;
    const { right } = layout;
    const middle = Math.min(Math.max(x + columns.w / 2, right.x + half), right.x + right.w - half);
    room.take(boxOf(text, middle, y, 'middle', 11, bold));
    const own = (
      <>
        {upper && <path class="rule" d={`M${r(x + columns.w / 2)} ${r(y + 3)}V${r(layout.time.y)}`} />}
        <T x={middle} y={y} anchor="middle" bold={bold}>
          {text}
        </T>
      </>
    );
    return thing ? (
      <To thing={thing} {...(label && { label })}>
        {own}
      </To>
    ) : (
      own
    );
  };
  return (
    <g>
      {data.machines.map(({ name, code }, i) =>
        head(fits ? name : cut(code, space - 1, 11, bold), i, columns.machine(i), `machine/${i}`, name),
      )}
      {columns.foot !== undefined &&
        head(
          fitting(space - 2, [t('on foot'), t('foot'), t('crew')], 11, bold) ?? '',
          data.machines.length,
          columns.foot,
        )}
    </g>
  );
}

/** What a box is filled with over its colour, so that product, water and brooms differ without it. */
const hatches: Readonly<Partial<Record<RunPicture['does'], string>>> = {
  apply: 'product',
  jet: 'jet',
  rinse: 'water',
  wet: 'water',
  sweep: 'upright',
  pickup: 'upright',
};

function boxGap({ w }: Columns): number {
  return Math.min(4, w * 0.1);
}

function Box({
  run,
  activity,
  layout,
  columns,
  id,
}: {
  run: RunPicture;
  activity: ActivityPicture;
  layout: Layout;
  columns: Columns;
  id: string;
}) {
  const part = timePart(layout, [activity.does === 'wash-down' ? activity.start : run.start, run.end]);
  if (!part) return null;
  const gap = boxGap(columns);
  const [x, w] = [columns.machine(run.machine) + gap, columns.w - 2 * gap];
  const hatch = hatches[run.does];
  const [y, h] = [part[0], Math.max(1, part[1] - part[0])];
  return (
    <>
      <rect class={`box ${run.does}`} x={r(x)} y={r(y)} width={r(w)} height={r(h)} />
      {hatch && <rect fill={`url(#${id}-${hatch})`} x={r(x)} y={r(y)} width={r(w)} height={r(h)} />}
      {run.trips.map(trip => {
        const away = timePart(layout, [trip.start, trip.end]);
        return (
          away && <rect class="box" x={r(x)} y={r(away[0])} width={r(w)} height={r(Math.max(1, away[1] - away[0]))} />
        );
      })}
    </>
  );
}

function OnFoot({ activity, x, w, layout }: { activity: ActivityPicture; x: number; w: number; layout: Layout }) {
  const part = timePart(layout, [activity.start, activity.end]);
  if (!part) return null;
  // Inspections of two bays may run at the same time: each is drawn narrower than the column, from either side.
  const inset = w * 0.12 + (activity.does === 'inspect' ? w * 0.06 : 0);
  return (
    <rect
      class="box walk"
      x={r(x + inset)}
      y={r(part[0])}
      width={r(w - 2 * inset)}
      height={r(Math.max(1, part[1] - part[0]))}
    />
  );
}

function SetUp({ night, layout, id, columns }: { night: NightPicture; layout: Layout; id: string; columns: Columns }) {
  const part = timePart(layout, [night.start, night.from]);
  if (!part) return null;
  const w = (columns.recall ? columns.recall.x - 8 : layout.right.x + layout.right.w) - layout.right.x;
  return (
    <rect fill={`url(#${id}-dots)`} x={r(layout.right.x)} y={r(part[0])} width={r(w)} height={r(part[1] - part[0])} />
  );
}

interface Boxed {
  readonly activity: ActivityPicture;
  readonly run: RunPicture | undefined;
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

/** Bays on the boxes, refills, set-up, reserve: what fits, the longest boxes first. */
function Words({
  data,
  layout,
  room,
  t,
  columns,
  night,
  activities,
}: FigureProps & {
  readonly columns: Columns;
  readonly night: NightPicture;
  readonly activities: readonly ActivityPicture[];
}) {
  const { right } = layout;
  const words: { text: string; x: number; y: number; plate: boolean; solid: boolean }[] = [];
  const put = (text: string | undefined, x: number, y: number, plate: boolean, solid = false): void => {
    if (text && room.take(boxOf(text, x, y, 'middle'), 1)) words.push({ text, x, y, plate, solid });
  };
  const setUp = timePart(layout, [night.start, night.from]);
  const w = (columns.recall ? columns.recall.x - 8 : right.x + right.w) - right.x;
  if (setUp && setUp[1] - setUp[0] > 11) {
    put(
      fitting(w - 8, [t('set-up {0}', duration(night.from - night.start)), t('set-up')]),
      right.x + w / 2,
      (setUp[0] + setUp[1]) / 2 + 4,
      true,
    );
  }
  const reserve = night.handBack === undefined ? undefined : timePart(layout, [night.handBack, night.end]);
  if (reserve && reserve[1] - reserve[0] > 12) {
    put(fitting(w - 8, [t('reserve')]), right.x + w / 2, (reserve[0] + reserve[1]) / 2 + 4, true);
  }
  const boxes = activities.flatMap((activity): readonly Boxed[] =>
    activity.runs.length > 0
      ? activity.runs.map(run => ({ activity, run, x: columns.machine(run.machine), from: run.start, to: run.end }))
      : columns.foot !== undefined && activity.does !== 'wash-down'
        ? [{ activity, run: undefined, x: columns.foot, from: activity.start, to: activity.end }]
        : [],
  );
  for (const { activity, run, x, from, to } of boxes.toSorted((a, b) => b.to - b.from - (a.to - a.from))) {
    const bay = { work: activity.work, number: activity.bay };
    const part = timePart(layout, [from, to]);
    if (part && part[1] - part[0] >= 11) {
      // Hatched boxes carry a plate below their text; on a full one it has the colour of the box, and stays inside.
      const solid = run?.does === 'contact';
      const w = solid ? columns.w - 2 * boxGap(columns) - 2 : columns.w - 6;
      const text = fitting(w, [nameOfBay(data, bay), codeOfBay(data, bay), String(activity.bay)]);
      put(text, x + columns.w / 2, (part[0] + part[1]) / 2 + 4, true, solid);
    }
    for (const trip of run?.trips ?? []) {
      const away = timePart(layout, [trip.start, trip.end]);
      if (away && away[1] - away[0] >= 10) {
        put(
          fitting(columns.w - 6, trip.why === 'refill' ? [t('refill'), t('R')] : [t('empty'), t('E')]),
          x + columns.w / 2,
          (away[0] + away[1]) / 2 + 4,
          false,
        );
      }
    }
  }
  return (
    <g>
      {words.map(({ text, x, y, plate, solid }) =>
        plate ? (
          <Plated x={x} y={y} w={textWidth(text)} {...(solid && { tone: 'on', ground: 'box' })}>
            {text}
          </Plated>
        ) : (
          <T x={x} y={y} anchor="middle" halo>
            {text}
          </T>
        ),
      )}
    </g>
  );
}

/** The recall line: at every moment the minutes it would take to clear the runway, against the limit. */
function Recall({
  night,
  layout,
  t,
  id,
  at,
}: {
  night: NightPicture;
  layout: Layout;
  t: Translate;
  id: string;
  at: { readonly x: number; readonly w: number };
}) {
  const { recall } = night;
  if (!recall) return null;
  const px = recallScale(recall, at);
  const points = recall.curve.map(([t, seconds]) => `${r(px(seconds))} ${r(layout.timeY(t))}`);
  const ends = [recall.curve[0]?.[0] ?? night.start, recall.curve.at(-1)?.[0] ?? night.end].map(t =>
    r(layout.timeY(t)),
  );
  const area = `M${r(at.x)} ${ends[0]}L${points.join('L')}L${r(at.x)} ${ends[1]}Z`;
  const over = recall.limit !== undefined && recall.peak.seconds > recall.limit;
  const { y, h } = layout.time;
  return (
    <g>
      <title>
        {t('Recall: at most {0} min, at {1}', minutes(recall.peak.seconds), clockText(night, recall.peak.at))}
      </title>
      <path class="recall-area" d={area} />
      {over && (
        <>
          <clipPath id={`${id}-recall`}>
            <rect
              x={r(px(recall.limit!))}
              y={r(y)}
              width={r(Math.max(0, at.x + at.w - px(recall.limit!)))}
              height={r(h)}
            />
          </clipPath>
          <g clip-path={`url(#${id}-recall)`}>
            <path class="missed" d={area} />
            <path fill={`url(#${id}-over)`} d={area} />
          </g>
        </>
      )}
      <path class="recall" d={`M${points.join('L')}`} />
      <path class="axis" d={`M${r(at.x)} ${r(y)}V${r(y + h)}`} />
      {recall.limit !== undefined && <path class="recall-limit" d={`M${r(px(recall.limit))} ${r(y)}V${r(y + h)}`} />}
    </g>
  );
}

function recallScale(
  recall: RecallPicture,
  at: { readonly x: number; readonly w: number },
): (seconds: number) => number {
  const most = Math.max(recall.peak.seconds, recall.limit ?? 0) * 1.08 || 1;
  return seconds => at.x + (at.w * seconds) / most;
}

/** The peak in minutes, and over the column the limit. */
function RecallNumbers({
  night,
  layout,
  room,
  at,
}: FigureProps & { readonly night: NightPicture; readonly at: { readonly x: number; readonly w: number } }) {
  const { recall } = night;
  if (!recall) return null;
  const { limit, peak } = recall;
  const head = limit === undefined ? '' : `≤ ${minutes(limit)}`;
  const headY = layout.time.y - 6;
  const shown = head !== '' && room.take(boxOf(head, at.x + at.w, headY, 'end'), 1);
  const over = limit !== undefined && peak.seconds > limit;
  const text = minutes(peak.seconds, limit === undefined ? {} : { most: limit });
  const w = textWidth(text, 11, true);
  const x = recallScale(recall, at)(peak.seconds) - 4;
  const y = Math.max(layout.timeY(peak.at) + 15, layout.time.y + 12);
  const fits =
    w < x - at.x &&
    peak.at >= layout.span[0] &&
    y < layout.time.y + layout.time.h &&
    room.take(boxOf(text, x, y, 'end', 11, true));
  return (
    <g>
      {shown && (
        <T x={at.x + at.w} y={headY} anchor="end" tone="quiet">
          {head}
        </T>
      )}
      {fits && (
        <T x={x} y={y} anchor="end" bold halo {...(over && { tone: 'bad' })}>
          {text}
        </T>
      )}
    </g>
  );
}
