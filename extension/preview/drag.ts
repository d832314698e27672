/** Dragging: from where the pointer is to the number that the text would have, and the edit that writes it. */

import type { TextEdit } from '../../language/pictures/data.ts';
import { type Handle, steppedValue, writtenValue } from '../../language/pictures/handles.ts';
import type { Layout } from '../../language/pictures/layout.ts';
import type { Spot } from '../../language/pictures/spots.ts';
import { type Translate, tell } from '../../language/pictures/words.ts';

export interface Drag {
  readonly handle: Handle;
  /** Number of the picture that the handle is of. */
  readonly picture: number;
  /** The value it would have now. */
  readonly value: number;
  /** By the keyboard: Enter writes it. */
  readonly byKey: boolean;
  /** Where along its axis the pointer took hold. */
  readonly from: number;
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
