/**
 * Work in turns, one in each frame, so that none takes longer than a frame: reading what has come, and drawing the
 * document anew. A new picture is drawn unit by unit, those that are seen first. For these few frames some units show the
 * picture before.
 */
import { useEffect, useLayoutEffect, useReducer, useRef } from 'preact/hooks';

/** What is drawn in one turn, in the order of reading. */
export const units = ['head', 'plan', 'map', 'chart', 'night', 'over', 'lists'] as const;
export type Unit = (typeof units)[number];

/** Longest time that a frame waits for in a window that nobody sees, where there are none, ms. */
const longest = 200;

/** Calls back in the next frame; gives the way to call that off. */
export function inNextFrame(act: () => void): () => void {
  const stop = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  };
  const once = (): void => {
    stop();
    act();
  };
  const frame = requestAnimationFrame(once);
  const timer = setTimeout(once, longest);
  return stop;
}

/**
 * What each unit is to be drawn from: the value it had, until its turn comes. Nothing waits where it is the same picture
 * that is to be drawn otherwise (the reader turned to something else), nor for the first one.
 * @param wanted what all of them shall be drawn from; compared as objects
 * @param picture number of the picture that this is of
 * @param order units in the order of their turns, asked when a new value has come
 */
export function useTurns<T>(
  wanted: T,
  picture: number | undefined,
  order: () => readonly Unit[],
): { readonly drawn: Readonly<Record<Unit, T>>; readonly busy: boolean } {
  const [, drawAgain] = useReducer<number, void>(count => count + 1, 0);
  const before = useRef({ wanted, picture });
  const state = useRef<Turns<T>>({ drawn: allOf(wanted), line: [] });
  const { current: last } = before;
  const waits = picture !== last.picture && last.picture !== undefined;
  if (wanted !== last.wanted && !waits) state.current = { drawn: allOf(wanted), line: [] };
  before.current = { wanted, picture };
  const { drawn } = state.current;
  const busy = units.some(each => drawn[each] !== wanted);

  // One frame is asked for at a time, and it takes what is wanted by then: drawing for other reasons doesn't put it off.
  const asked = useRef<(() => void) | undefined>(undefined);
  const latest = useRef({ wanted, order });
  latest.current = { wanted, order };
  useLayoutEffect(() => {
    if (!busy || asked.current) return;
    asked.current = inNextFrame(() => {
      asked.current = undefined;
      state.current = turned(state.current, latest.current.wanted, latest.current.order);
      drawAgain();
    });
  });
  useEffect(() => () => asked.current?.(), []);
  return { drawn, busy };
}

interface Turns<T> {
  readonly drawn: Readonly<Record<Unit, T>>;
  /** Who had a turn stands at the end: where pictures come faster than they are drawn, all have their turns still. */
  readonly line: readonly Unit[];
}

/** After one more turn. */
export function turned<T>({ drawn, line }: Turns<T>, wanted: T, order: () => readonly Unit[]): Turns<T> {
  const waiting = line.length === 0 ? order() : line;
  const next = waiting.find(each => drawn[each] !== wanted);
  if (next === undefined) return { drawn, line: [] };
  const after = { ...drawn, [next]: wanted };
  const done = units.every(each => after[each] === wanted);
  return { drawn: after, line: done ? [] : [...waiting.filter(each => each !== next), next] };
}

function allOf<T>(value: T): Readonly<Record<Unit, T>> {
  return Object.fromEntries(units.map(each => [each, value])) as Record<Unit, T>;
}

/** The units, those first that are seen now. */
export function unitsInSight(): readonly Unit[] {
  const seen = (unit: Unit): boolean => {
    const box = document.querySelector(`[data-unit="${unit}"]`)?.getBoundingClientRect();
    return box !== undefined && box.bottom > 0 && box.top < window.innerHeight;
  };
  const first = units.filter(seen);
  return [...first, ...units.filter(each => !first.includes(each))];
}
