/** The signs: what the shapes, hatches and tints of the sheet mean. */

import type { MachinePicture } from './data.ts';
import { Machine } from './machine.tsx';
import { Ring, r, Sign, T } from './parts.tsx';
import type { FigureProps } from './plan.tsx';
import { classBounds, clockName } from './soakMap.tsx';
import { cut, textWidth } from './text.ts';

const row = 16;

/** Columns narrower than this hold the machines by their codes alone where one of the names would be cut, px. */
const columnOfCodes = 100;

export function Signs(props: FigureProps) {
  const { data, layout } = props;
  const half = layout.right.w / 2;
  const byCodes = half < columnOfCodes && data.machines.some(each => textWidth(nameOf(each)) > half - 26);
  return layout.narrow || byCodes ? <FewSigns {...props} /> : <AllSigns {...props} />;
}

function nameOf({ code, name }: MachinePicture): string {
  return code === name ? name : `${code} ${name}`;
}

function AllSigns({ data, view, layout, t, id }: FigureProps) {
  const { x, w } = layout.right;
  const top = layout.plan.title;
  const bottom = layout.plan.below;
  const rows = Math.floor((bottom - top - 4) / row);
  const half = w / 2;
  const machines = data.machines.map(each => ({
    w: 20 + textWidth(nameOf(each), 11) + 10,
    draw: (at: number, y: number, room: number) => (
      <g>
        <title>{each.name}</title>
        <Machine kind={each.kind} x={at + 7} y={y - 4} dir={1} />
        <T x={at + 18} y={y}>
          {cut(nameOf(each), room - 20)}
        </T>
      </g>
    ),
  }));
  const used = buildUpsOn(data, view);
  const bounds = classBounds(data, view.clock);
  const [wetNow, worst, misses] = [t('wet now'), t('worst place'), t('misses a limit')];
  const entries: { readonly w: number; readonly draw: (x: number, y: number, room: number) => unknown }[] = [
    ...machines,
    ...used.map(([weight, word]) => ({
      w: 32 + textWidth(word) + 10,
      draw: (at: number, y: number) => (
        <>
          <rect class="rubber-ground" x={r(at)} y={r(y - 10)} width="24" height="12" />
          <rect fill={`url(#${id}-w${weight})`} x={r(at)} y={r(y - 10)} width="24" height="12" />
          <T x={at + 29} y={y}>
            {word}
          </T>
        </>
      ),
    })),
    {
      w: 32 + textWidth(wetNow) + 10,
      draw: (at, y, room) => (
        <>
          <rect class="wet" x={r(at)} y={r(y - 9)} width="24" height="10" />
          <T x={at + 29} y={y}>
            {cut(wetNow, room - 29)}
          </T>
        </>
      ),
    },
    {
      w: 22 + textWidth(worst) + 10,
      draw: (at, y, room) => (
        <>
          <Ring x={at + 8} y={y - 4} />
          <T x={at + 21} y={y}>
            {cut(worst, room - 21)}
          </T>
        </>
      ),
    },
  ];
  const bad = data.bays.some(bay => bay.state !== 'kept');
  if (bad)
    entries.push({
      w: 20 + textWidth(misses) + 10,
      draw: (at, y, room) => (
        <>
          <Sign kind="over" x={at + 6} y={y - 4} size={11} />
          <T x={at + 18} y={y}>
            {cut(misses, room - 18)}
          </T>
        </>
      ),
    });
  // Two columns, in the order of reading; the key of the tints stands last, at the foot.
  const keyRows = bounds.length > 0 ? 2 : 0;
  const space = (rows - 1 - keyRows) * 2;
  return (
    <g>
      <T x={x} y={top} size={13} bold>
        {t('Signs')}
      </T>
      {entries
        .slice(0, Math.max(0, space))
        .map((entry, i) => entry.draw(x + (i % 2) * half, top + row * (1 + Math.floor(i / 2)) + 1, half - 6) as never)}
      {bounds.length > 0 && (
        <TintKey x={x} y={bottom - 14} w={w} bounds={bounds} title={t('{0}, min', clockName(view.clock, t))} />
      )}
    </g>
  );
}

/** Build-ups of the deposits on the runway that is shown, lightest first: the weight of their tint and their word. */
function buildUpsOn(
  { deposits }: FigureProps['data'],
  { runway }: FigureProps['view'],
): readonly (readonly [weight: number, word: string])[] {
  const shown = deposits.flatMap(each =>
    each.runway === runway && each.buildUp ? [[each.weight, each.buildUp] as const] : [],
  );
  return [...new Map(shown)].toSorted((a, b) => a[0] - b[0]);
}

interface FewSign {
  readonly text: string;
  readonly draw: (x: number, y: number) => unknown;
}

/** In a narrow column: the machines by their codes in three columns, then one sign a row, the key of the tints last. */
function FewSigns({ data, view, layout, t, id }: FigureProps) {
  const { x, w } = layout.right;
  const top = layout.plan.title;
  const bottom = layout.plan.below;
  const rows = Math.floor((bottom - top - 4) / row);
  const widest = Math.max(0, ...data.machines.map(({ code }) => textWidth(code)));
  const columns = Math.max(1, Math.min(3, Math.floor(w / (widest + 22))));
  const machineRows = Math.ceil(data.machines.length / columns);
  const used = buildUpsOn(data, view);
  const buildUps: readonly FewSign[] = used.map(([weight, text]) => ({
    text,
    draw: (at, y) => (
      <>
        <rect class="rubber-ground" x={r(at)} y={r(y - 10)} width="18" height="12" />
        <rect fill={`url(#${id}-w${weight})`} x={r(at)} y={r(y - 10)} width="18" height="12" />
      </>
    ),
  }));
  // Two build-ups beside each other where their words are short enough.
  const paired = buildUps.every(each => textWidth(each.text) <= w / 2 - 26);
  const missed: FewSign = {
    text: t('misses a limit'),
    draw: (at, y) => <Sign kind="over" x={at + 8} y={y - 4} size={11} />,
  };
  const signs: readonly (readonly FewSign[])[] = [
    ...(data.bays.some(bay => bay.state !== 'kept') ? [[missed]] : []),
    [{ text: t('worst place'), draw: (at, y) => <Ring x={at + 8} y={y - 4} /> }],
    [{ text: t('wet now'), draw: (at, y) => <rect class="wet" x={r(at)} y={r(y - 9)} width="18" height="10" /> }],
    ...buildUps.flatMap((each, i) => (paired ? (i % 2 === 0 ? [buildUps.slice(i, i + 2)] : []) : [[each]])),
  ];
  const space = Math.max(0, rows - 1 - machineRows);
  const bounds = classBounds(data, view.clock);
  // The key of the tints only where all else has its place: the map has its numbers.
  const withKey = bounds.length > 0 && signs.length + 2 <= space;
  return (
    <g>
      <T x={x} y={top} size={13} bold>
        {t('Signs')}
      </T>
      {data.machines.map(({ name, code, kind }, i) => {
        const [at, y] = [x + ((i % columns) * w) / columns, top + row * (1 + Math.floor(i / columns)) + 1];
        return (
          <g>
            <title>{name}</title>
            <Machine kind={kind} x={at + 7} y={y - 4} dir={1} />
            <T x={at + 18} y={y}>
              {cut(code, w / columns - 18)}
            </T>
          </g>
        );
      })}
      {signs.slice(0, space).map((line, i) => {
        const y = top + row * (1 + machineRows + i) + 1;
        return line.map(({ text, draw }, k) => {
          const at = x + (k * w) / 2;
          return (
            <>
              {draw(at, y) as never}
              <T x={at + 24} y={y}>
                {cut(text, w / line.length - 24)}
              </T>
            </>
          );
        });
      })}
      {withKey && (
        <TintKey x={x} y={bottom - 14} w={w} bounds={bounds} title={t('{0}, min', clockName(view.clock, t))} />
      )}
    </g>
  );
}

/** Tints in a row, the minutes between them below. */
function TintKey({
  x,
  y,
  w,
  bounds,
  title,
}: {
  x: number;
  y: number;
  w: number;
  bounds: readonly number[];
  title: string;
}) {
  const from = x + textWidth(title) + 8;
  const each = Math.min(40, (w - (from - x) - 20) / (bounds.length + 1));
  // Long numbers on narrow tints: every other one.
  const room = Math.max(...bounds.map(bound => textWidth(String(bound)))) + 4;
  const step = Math.max(1, Math.ceil(room / each));
  return (
    <g>
      <T x={x} y={y} tone="quiet">
        {title}
      </T>
      {Array.from({ length: bounds.length + 1 }, (_, i) => (
        <rect class={`tint${Math.min(3, i)}`} x={r(from + i * each)} y={r(y - 9)} width={r(each)} height="10" />
      ))}
      <path
        class="outline"
        d={`M${r(from)} ${r(y - 9)}h${r(each * (bounds.length + 1))}v10h${r(-each * (bounds.length + 1))}Z`}
      />
      {bounds.map((bound, i) =>
        i % step !== 0 ? null : (
          <T x={from + (i + 1) * each} y={y + 13} anchor="middle" tone="quiet">
            {String(bound)}
          </T>
        ),
      )}
    </g>
  );
}
