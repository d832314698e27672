/** Where the pointer is on the sheet. Kept out of the state of the application, so that moving it draws nothing else again. */
export interface Point {
  readonly x: number;
  readonly y: number;
  /** What stands there, in words. */
  readonly text: string;
}

export interface Hover {
  readonly set: (point: Point | undefined) => void;
  readonly listen: (hear: (point: Point | undefined) => void) => () => void;
}

export function createHover(): Hover {
  const listeners = new Set<(point: Point | undefined) => void>();
  return {
    set: point => {
      for (const hear of listeners) hear(point);
    },
    listen: hear => {
      listeners.add(hear);
      return () => listeners.delete(hear);
    },
  };
}
