/** Where on the sheet the handles stand, so that they can be drawn and labels keep out of their way. */
import type { PictureData } from './data.ts';
import type { Handle } from './handles.ts';
import type { Layout, SheetView } from './layout.ts';
import type { Box } from './text.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Where a handle stands on the sheet; undefined where it is not shown. `moved` is how far it is dragged, m or s. */
export function spotOf(
  { at, moves }: Pick<Handle, 'at' | 'moves'>,
  data: PictureData,
  view: SheetView,
  layout: Layout,
  moved = 0,
): Spot | undefined {
  if (at.axis === 'time') {
    const night = data.nights[view.night];
    if (!night || night.name !== at.closure) return undefined;
    const edge = moves === 'closure opens' ? night.start : moves === 'closure ends' ? night.end : night.handBack;
    if (edge === undefined) return undefined;
    const t = edge + moved;
    const [from, to] = layout.span;
    if (t < from - 1 && moved === 0) return undefined;
    if (t > to + 1 && moved === 0) return undefined;
    return { x: layout.chart.x + layout.chart.w - (moves === 'hand-back' ? 44 : 20), y: layout.timeY(t) };
  }
  if (at.runway !== view.runway) return undefined;
  const [x, y] = at.axis === 'x' ? [at.x + moved, at.y] : [at.x, at.y + moved];
  if (!layout.along.part([x - 0.5, x + 0.5])) return undefined;
  const { plan } = layout;
  // Bay boundaries at the upper edge of the plan, ends of works at the lower: none lies under that of a deposit.
  const edge = moves === 'bay boundary' ? plan.y : moves === 'work end' ? plan.y + plan.h - 7 : undefined;
  return { x: layout.along.px(x), y: edge ?? layout.planY(y) };
}

/** Half the size of a handle's shape, px. */
const halves: Readonly<Record<Handle['moves'], readonly [w: number, h: number]>> = {
  'bay boundary': [6, 6],
  'work end': [5, 8],
  'deposit end': [4, 7],
  'deposit side': [8, 3.5],
  'closure opens': [8, 3.5],
  'closure ends': [8, 3.5],
  'hand-back': [8, 3.5],
};

/** What the handles of a view cover, those that are refused included; all of them, or those that are asked for. */
export function handleBoxes(
  data: PictureData,
  view: SheetView,
  layout: Layout,
  wanted: (handle: Pick<Handle, 'moves'>) => boolean = () => true,
): readonly Box[] {
  return [...data.handles, ...data.refusals].filter(wanted).flatMap(each => {
    const spot = spotOf(each, data, view, layout);
    const [w, h] = halves[each.moves];
    return spot ? [{ x: spot.x - w - 1, y: spot.y - h, w: 2 * w + 2, h: 2 * h }] : [];
  });
}
