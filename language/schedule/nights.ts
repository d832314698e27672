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
  return members.length === 0 ? undefined : partOf(built.problem, starts, members, window);
}

/** Some activities of a problem by themselves, within one window of time. */
export function partOf(problem: Problem, starts: readonly number[], members: readonly number[], window: Window): Part {
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

/** Whether all closures leave equally long to work, and every bay may be done in each of them. */
export function areEqual({ nights, problem }: Built): boolean {
  const anywhere = (problem.together ?? []).every(each => each.windows.length === nights.length);
  return anywhere && nights.every(each => each.handBack - each.from === nights[0]!.handBack - nights[0]!.from);
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

/** A bay by itself: no closures, nothing else in the way, from the moment machines may work. */
export function lonelyBay(built: Built, group: number): Omit<Part, 'starts'> {
  const { problem, nights, zero } = built;
  const { activities: bay } = problem.together![group]!;
  const inBay = new Set(bay);
  const visits = problem.lags.flatMap(({ from, to }) => (inBay.has(from) && to >= built.tasks.length ? [to] : []));
  const members = [...bay, ...visits];
  const { problem: part } = partOf(
    problem,
    members.map(() => 0),
    members,
    { start: 0, end: 0 },
  );
  const opens = nights.map(night => windowOf(night, zero!));
  return {
    members,
    problem: {
      ...part,
      activities: members.map(i => {
        const { windows, ...rest } = problem.activities[i]!;
        const first = windows?.[0];
        const own = first && opens.find(each => each.end === first.end);
        return own ? { ...rest, release: first.start - own.start } : rest;
      }),
    },
  };
}

/** The same problem in so many closures, all as long as the longest. Undefined where works have closures of their own. */
export function alikeNights(
  built: Built,
  count: number,
): { readonly problem: Problem; readonly windows: readonly Window[] } | undefined {
  const { nights, problem, groups } = built;
  if (problem.together?.some(each => each.windows.length !== nights.length) || groups.length === 0) return undefined;
  const longest = Math.max(...nights.map(night => night.handBack - night.from));
  const pitch = 86_400 * Math.max(1, Math.ceil(longest / 86_400));
  // Where a machine has to be made ready first, an activity's own windows begin later: so they do in every closure.
  const alike = Array.from({ length: count }, (_, k) => ({ start: k * pitch, end: k * pitch + longest }));
  const delay = ([first]: readonly Window[]): number => {
    const own = nights.map(night => windowOf(night, built.zero!)).find(each => each.end === first?.end);
    return first && own ? first.start - own.start : 0;
  };
  const whole = (windows: readonly Window[]): readonly Window[] =>
    alike.map(({ start, end }) => ({ start: Math.min(end, start + delay(windows)), end }));
  return { problem: withWindows(problem, whole), windows: alike };
}
