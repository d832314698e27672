/** Dragging: from where the pointer is to the number that the text would have, and the edit that writes it. */

import type { PictureData, TextEdit } from '../../language/pictures/data.ts';
import { type Handle, steppedValue, writtenValue } from '../../language/pictures/handles.ts';
import type { Layout, SheetView } from '../../language/pictures/layout.ts';
import { type Translate, tell } from '../../language/pictures/words.ts';

export interface Drag {
  readonly handle: Handle;
  /** The value it would have now. */
  readonly value: number;
  /** By the keyboard: Enter writes it. */
  readonly byKey: boolean;
  /** Where along its axis the pointer took hold. */
  readonly from: number;
}

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

/** Place along a handle's axis under the pointer: metres of the pavement, or seconds. */
export function placeAt({ at }: Pick<Handle, 'at'>, layout: Layout, { x, y }: Spot): number {
  return at.axis === 'time' ? layout.timeAt(y) : at.axis === 'x' ? layout.along.x(x) : layout.planOffset(y);
}

/** The value when the pointer has come to a place. */
export function draggedValue({ handle, from }: Pick<Drag, 'handle' | 'from'>, to: number, fine: boolean): number {
  return steppedValue(handle, handle.value + handle.factor * (to - from), fine);
}

/** How far along its axis a value stands from where the handle was. */
export function movedBy({ handle, value }: Pick<Drag, 'handle' | 'value'>): number {
  return (value - handle.value) / handle.factor;
}

export function editOf({ handle, value }: Pick<Drag, 'handle' | 'value'>): TextEdit {
  return { place: handle.place, text: writtenValue(handle, value) };
}

/** `Touchdown04, start of the deposit: 150 → 165` */
export function dragText(drag: Pick<Drag, 'handle' | 'value'>, t: Translate): string {
  return `${tell(t, drag.handle.name)}: ${changeText(drag)}`;
}

/** `150 → 165 m` */
export function changeText({ handle, value }: Pick<Drag, 'handle' | 'value'>): string {
  const unit = handle.write.as === 'clock' || handle.write.unit !== '' ? '' : ' m';
  return `${writtenValue(handle, handle.value)} → ${writtenValue(handle, value)}${unit}`;
}
