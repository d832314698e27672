/** Smaller and easier problems made from a job's problem: one closure by itself, chosen closures, closures made alike. */
import { type Built, windowOf } from './build.ts';
import type { Lag, Problem, Resource, Window } from './solver/model.ts';

/** A part of a problem: its activities, by their indices in the whole. */
export interface Part {
  readonly problem: Problem;
  readonly members: readonly number[];
  readonly starts: readonly number[];
}

/** What is done in one closure, as a problem of its own: same bays, same closure. Undefined where that is nothing. */
export function nightProblem(built: Built, starts: readonly number[], night: number): Part | undefined {
  const window = windowOf(built.nights[night]!, built.zero!);
  const inside = (i: number): boolean => starts[i]! >= window.start && starts[i]! < window.end;
  const members = built.problem.activities.flatMap((_, i) => (isPlaced(built, i) && inside(i) ? [i] : []));
  return members.length === 0 ? undefined : partOf(built, starts, members, window);
}

/** Some activities of a problem by themselves, within one window of time. */
export function partOf(built: Built, starts: readonly number[], members: readonly number[], window: Window): Part {
  const { problem } = built;
  const local = new Map(members.map((i, k) => [i, k] as const));
  const lags = problem.lags.flatMap((lag): Lag[] => {
    const [from, to] = [local.get(lag.from), local.get(lag.to)];
    return from === undefined || to === undefined ? [] : [{ ...lag, from, to }];
  });
  const resources = problem.resources.flatMap(({ uses, changeover, ...rest }): Resource[] => {
    const kept = uses.flatMap((use, u) => (local.has(use.activity) ? [u] : []));
    if (kept.length < 2) return [];
    return [
      {
        ...rest,
        uses: kept.map(u => ({ ...uses[u]!, activity: local.get(uses[u]!.activity)! })),
        ...(changeover && { changeover: kept.map(a => kept.map(b => changeover[a]![b]!)) }),
      },
    ];
  });
  const counted = new Set(problem.objective);
  return {
    members,
    starts: members.map(i => starts[i]!),
    problem: {
      activities: members.map(i => {
        const { windows, ...rest } = problem.activities[i]!;
        const own = windows?.find(each => each.end > window.start && each.start < window.end) ?? window;
        return { ...rest, windows: [{ start: Math.max(own.start, window.start), end: Math.min(own.end, window.end) }] };
      }),
      lags,
      resources,
      objective: members.flatMap((i, k) => (counted.has(i) ? [k] : [])),
    },
  };
}

/** The same problem with only some of the nights. */
export function withNights(built: Built, nights: readonly number[]): Problem {
  const kept = new Set(nights.map(i => windowOf(built.nights[i]!, built.zero!)).map(each => each.end));
  const only = (windows: readonly Window[]): readonly Window[] => windows.filter(each => kept.has(each.end));
  return withWindows(built.problem, only);
}

/**
 * An easier problem: as many closures as given less one, all as long as the longest. If not even that is possible, the
 * number is the least. Undefined where works have closures of their own, so that nothing follows from it.
 */
export function relaxedNights(
  built: Built,
  count: number,
): { readonly problem: Problem; readonly equal: boolean } | undefined {
  const { nights, problem, groups } = built;
  if (problem.together?.some(each => each.windows.length !== nights.length) || groups.length === 0) return undefined;
  const lengths = nights.map(night => night.handBack - night.from);
  const longest = Math.max(...lengths);
  const pitch = 86_400 * Math.max(1, Math.ceil(longest / 86_400));
  // Where a machine has to be made ready first, an activity's own windows begin later: so they do in every closure.
  const alike = Array.from({ length: count - 1 }, (_, k) => ({ start: k * pitch, end: k * pitch + longest }));
  const delay = ([first]: readonly Window[]): number => {
    const own = nights.map(night => windowOf(night, built.zero!)).find(each => each.end === first?.end);
    return first && own ? first.start - own.start : 0;
  };
  const whole = (windows: readonly Window[]): readonly Window[] =>
    alike.map(({ start, end }) => ({ start: Math.min(end, start + delay(windows)), end }));
  return { problem: withWindows(problem, whole), equal: lengths.every(each => each === longest) };
}

function withWindows(problem: Problem, change: (windows: readonly Window[]) => readonly Window[]): Problem {
  return {
    ...problem,
    activities: problem.activities.map(each => (each.windows ? { ...each, windows: change(each.windows) } : each)),
    together: (problem.together ?? []).map(each => ({ ...each, windows: change(each.windows) })),
  };
}

/** On the runway, or a visit to a stand by something on it. */
function isPlaced({ tasks }: Built, i: number): boolean {
  return tasks[i]?.onRunway ?? true;
}
