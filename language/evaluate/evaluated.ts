/** What an expression comes to. */
import type { Block } from '../generated/ast.ts';
import type { Magnitude } from '../units/index.ts';
import type { Origin, Place } from '../vocabulary/given.ts';
import type { Layers } from './layers.ts';

export type Evaluated =
  | NumberValue
  | { readonly is: 'text'; readonly text: string }
  | { readonly is: 'truth'; readonly value: boolean }
  | { readonly is: 'word'; readonly word: string }
  | { readonly is: 'block'; readonly layers: Layers }
  | { readonly is: 'date'; readonly date: string }
  | { readonly is: 'clock'; readonly minutes: number }
  | { readonly is: 'ratio'; readonly left: number; readonly right: number }
  /** No value, and somebody has already said why. */
  | { readonly is: 'nothing' };

export interface NumberValue {
  readonly is: 'number';
  readonly magnitude: Magnitude;
  /** SI, from a tolerance. */
  readonly interval?: readonly [number, number];
  /** Canonical symbol of the unit the author wrote, where there is one. */
  readonly unit?: string;
  /** A literal: only that can be changed by a fix. A bare literal (no unit) can take the unit of its neighbour. */
  readonly literal?: string;
  /** How it came here, when it was not written here. */
  readonly origin?: Origin;
  readonly place?: Place;
}

export const nothing: Evaluated = { is: 'nothing' };

/** What to call it in a message. */
export function nameOfValue(value: Evaluated): string {
  switch (value.is) {
    case 'number':
      return 'a number';
    case 'text':
      return 'a text in quotes';
    case 'truth':
      return 'yes or no';
    case 'word':
      return `the word '${value.word}'`;
    case 'block':
      return `a ${value.layers.node.kind}`;
    case 'date':
      return 'a date';
    case 'clock':
      return 'a clock time';
    case 'ratio':
      return 'a ratio';
    case 'nothing':
      return 'nothing';
  }
}

export type { Block };
