/**
 * Drawing in turns, so that none takes longer than a frame may: the document is made of units, each of which shows what it
 * was last drawn from until its turn comes. In a frame as many have theirs as fit into it, those first that are seen, and
 * of these the one that has waited longest. So for some frames after a change a few units show what was before it, and
 * when the first picture comes they appear one after the other.
 */
import { createContext, options } from 'preact';
import { useContext, useLayoutEffect, useReducer, useRef } from 'preact/hooks';

/** Longest time in a frame for drawing and reading, ms: what the browser does with it afterwards takes about as long again. */
export const share = 2;

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

/** What is drawn in one turn. */
export interface Unit {
  /** Units of the same name cost about the same. */
  readonly name: string;
  readonly draw: () => void;
  /** What it is part of; where that is out of the window its turn can wait. */
  readonly place: () => Element | null;
}

/** Whose turn it is. */
export class Turns {
  private line: readonly Unit[] = [];
  private readonly costs = new Map<string, number>();
  private halt: (() => void) | undefined;
  private readonly tell: (busy: boolean) => void;
  private readonly clock: () => number;
  private readonly nextFrame: (act: () => void) => () => void;

  /** @param tell hears whether any unit waits */
  constructor(tell: (busy: boolean) => void, clock = () => performance.now(), nextFrame = inNextFrame) {
    this.tell = tell;
    this.clock = clock;
    this.nextFrame = nextFrame;
  }

  /** Puts a unit at the end of the line; where it is in it already it keeps its place. */
  wait(unit: Unit): void {
    if (this.line.includes(unit)) return;
    this.line = [...this.line, unit];
    this.goOn();
  }

  /** There is nothing more to draw for it. */
  leave(unit: Unit): void {
    if (!this.line.includes(unit)) return;
    this.line = this.line.filter(each => each !== unit);
    this.goOn();
  }

  stop(): void {
    this.halt?.();
    this.halt = undefined;
  }

  private goOn(): void {
    if (this.line.length === 0) this.stop();
    else this.halt ??= this.nextFrame(() => this.frame());
    this.tell(this.line.length > 0);
  }

  private frame(): void {
    this.halt = undefined;
    const begin = this.clock();
    for (const [i, unit] of seenFirst(this.line).entries()) {
      const start = this.clock();
      // What it will cost is what it cost before; one that was never drawn has a frame to itself.
      if (i > 0 && !isHidden() && start - begin + (this.costs.get(unit.name) ?? share) > share) continue;
      this.line = this.line.filter(each => each !== unit);
      unit.draw();
      this.costs.set(unit.name, this.clock() - start);
    }
    this.goOn();
  }
}

/** Whether nobody sees the window: there are hardly any frames then, and none that could be held up. */
function isHidden(): boolean {
  return typeof document !== 'undefined' && document.hidden;
}

/** Asks where things are once for each, while the document is laid out as it is seen. */
function seenFirst(units: readonly Unit[]): readonly Unit[] {
  if (units.length < 2) return units;
  const places = new Map<Element | null, boolean>([[null, true]]);
  const isSeen = ({ place }: Unit): boolean => {
    const element = place();
    let seen = places.get(element);
    if (seen === undefined) {
      const { top, bottom } = element!.getBoundingClientRect();
      seen = bottom > 0 && top < window.innerHeight;
      places.set(element, seen);
    }
    return seen;
  };
  const seen = units.filter(isSeen);
  return seen.length === units.length ? units : [...seen, ...units.filter(each => !seen.includes(each))];
}

export const TurnsContext = createContext<Turns | undefined>(undefined);

/**
 * What a unit is to be drawn from: what it was drawn from before, until its turn comes; nothing before its first.
 * @param same whether drawing it anew would change nothing; it stays what it was then
 * @param place the element that it is part of, to see whether that is in the window
 */
export function useTurn<T>(
  name: string,
  wanted: T,
  same: (drawn: T, wanted: T) => boolean,
  place: () => Element | null,
): T | undefined {
  const turns = useContext(TurnsContext)!;
  const [, again] = useReducer<number, void>(count => count + 1, 0);
  const held = useRef<{ drawn: T | undefined; wanted: T; readonly unit: Unit } | undefined>(undefined);
  held.current ??= {
    drawn: undefined,
    wanted,
    unit: {
      name,
      draw: () => {
        held.current!.drawn = held.current!.wanted;
        atOnce(again);
      },
      place,
    },
  };
  const { current } = held;
  current.wanted = wanted;
  const stale = current.drawn === undefined || !same(current.drawn, wanted);
  useLayoutEffect(() => {
    if (stale) turns.wait(current.unit);
    else turns.leave(current.unit);
  });
  useLayoutEffect(() => () => turns.leave(current.unit), [turns, current]);
  return current.drawn;
}

/** Draws what changes by it before it comes back, not later. */
function atOnce(change: () => void): void {
  const before = options.debounceRendering;
  let draw: (() => void) | undefined;
  options.debounceRendering = call => {
    draw = call;
  };
  try {
    change();
    draw?.();
  } finally {
    if (before) options.debounceRendering = before;
    else delete options.debounceRendering;
  }
}
