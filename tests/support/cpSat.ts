/**
 * The same problem for an independent exact solver: CP-SAT of OR-Tools (Apache-2.0), by the development package or-tools-wasm.
 * Used to compare answers and times, never by the product.
 */
import { CpModel, CpSolver, Domain, LinearExpr } from 'or-tools-wasm/cp-sat';
import type { Problem } from '../../language/schedule/solver/model.ts';

export interface CpSatAnswer {
  readonly status: 'optimal' | 'feasible' | 'infeasible' | 'unknown';
  readonly makespan?: number;
  readonly milliseconds: number;
}

export interface CpSatLimits {
  readonly workers: number;
  readonly seconds?: number;
  /** CP-SAT's own measure of work; with one worker the answer is the same on every run. */
  readonly work?: number;
}

/** Solves by CP-SAT; the time is that of its solve call alone, the model being built before. */
export async function solveByCpSat(problem: Problem, horizon: number, limits: CpSatLimits): Promise<CpSatAnswer> {
  const model = new CpModel();
  const starts = problem.activities.map(({ duration, release, deadline, windows }) => {
    const latest = Math.min(deadline ?? horizon, horizon) - duration;
    if (windows === undefined) return model.newIntVar(release ?? 0, latest);
    const allowed = windows
      .filter(w => w.end - w.start >= duration && w.start <= latest)
      .map(w => [Math.max(w.start, release ?? 0), Math.min(w.end - duration, latest)]);
    return model.newIntVarFromDomain(Domain.fromIntervals(allowed));
  });
  const intervals = starts.map((start, i) => model.newFixedSizeIntervalVar(start, problem.activities[i]!.duration));
  for (const { from, to, least, greatest } of problem.lags) {
    const apart = starts[to]!.minus(starts[from]!);
    model.addLinearConstraint(apart, least ?? -2 * horizon, greatest ?? 2 * horizon);
  }
  for (const { activities, windows } of problem.together ?? []) {
    const choice = windows.map(() => model.newBoolVar());
    model.addExactlyOne(choice);
    for (const [k, { start, end }] of windows.entries()) {
      for (const i of activities) {
        const duration = problem.activities[i]!.duration;
        model.addLinearConstraint(starts[i]!.times(1), start, end - duration).onlyEnforceIf(choice[k]!);
      }
    }
  }
  for (const { capacity, uses, changeover } of problem.resources) {
    const active = uses.map((use, u) => ({ ...use, u })).filter(use => problem.activities[use.activity]!.duration > 0);
    if (capacity === 1) model.addNoOverlap(active.map(use => intervals[use.activity]!));
    else
      model.addCumulative(
        active.map(use => intervals[use.activity]!),
        active.map(use => use.demand ?? 1),
        capacity,
      );
    if (changeover === undefined) continue;
    for (const a of active) {
      for (const b of active) {
        if (a.u >= b.u) continue;
        const first = model.newBoolVar();
        const gap = (x: typeof a, y: typeof a): number =>
          problem.activities[x.activity]!.duration + changeover[x.u]![y.u]!;
        const apart = starts[b.activity]!.minus(starts[a.activity]!);
        model.addLinearConstraint(apart, gap(a, b), 2 * horizon).onlyEnforceIf(first);
        model.addLinearConstraint(apart, -2 * horizon, -gap(b, a)).onlyEnforceIf(first.not());
      }
    }
  }
  const makespan = model.newIntVar(0, horizon);
  for (const i of problem.objective ?? problem.activities.keys()) {
    model.addLinearConstraint(makespan.minus(starts[i]!), problem.activities[i]!.duration, 2 * horizon);
  }
  model.minimize(LinearExpr.sum([makespan]));
  const solver = new CpSolver();
  const begun = performance.now();
  const status = await solver.solve(model, {
    numSearchWorkers: limits.workers,
    maxTimeInSeconds: limits.seconds ?? 30,
    ...(limits.work === undefined ? {} : { maxDeterministicTime: limits.work }),
  });
  const milliseconds = performance.now() - begun;
  const name = solver.statusName(status);
  if (name === 'OPTIMAL' || name === 'FEASIBLE') {
    return {
      status: name === 'OPTIMAL' ? 'optimal' : 'feasible',
      makespan: Number(solver.objectiveValue()),
      milliseconds,
    };
  }
  return { status: name === 'INFEASIBLE' ? 'infeasible' : 'unknown', milliseconds };
}
