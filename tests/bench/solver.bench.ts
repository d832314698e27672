/**
 * How fast the scheduling solver proves an optimum, side by side with CP-SAT (or-tools-wasm) on the same jobs in one run.
 *
 *     node tests/bench/solver.bench.ts [jobs per size] [seconds for CP-SAT]
 *
 * Both are warm: each has solved other jobs before, and CP-SAT's start-up and the building of its model are not counted.
 * Our time is the whole call, checking and preparing the problem included. CP-SAT runs once with one worker and, where that
 * settles the job, once with two, and its better time counts; a job it does not settle in its limit counts with the limit, which
 * flatters it.
 */
import { solveToEnd } from '../../language/schedule/solver/solve.ts';
import { checkSchedule } from '../support/checkSchedule.ts';
import { type CpSatAnswer, solveByCpSat } from '../support/cpSat.ts';
import { runwayJob } from '../support/runwayJobs.ts';

const SIZES = [20, 40, 60, 100, 150];
const count = Number(process.argv[2] ?? 8);
const seconds = Number(process.argv[3] ?? 5);

interface Row {
  readonly size: number;
  readonly own: number;
  readonly other: number;
  readonly ownSettled: boolean;
  readonly otherSettled: boolean;
}

for (let seed = 900; seed < 925; seed++) solveToEnd(runwayJob(seed, SIZES[seed % SIZES.length]!), { conflicts: 500 });
await solveByCpSat(runwayJob(900, 20), 20 * 86_400, { workers: 1, seconds: 1 });
await solveByCpSat(runwayJob(900, 20), 20 * 86_400, { workers: 2, seconds: 1 });

const rows: Row[] = [];
let disagreements = 0;
for (const size of SIZES) {
  for (let k = 0; k < count; k++) {
    const job = runwayJob(1000 + size + k, size);
    const begun = performance.now();
    const own = solveToEnd(job);
    const ownTime = performance.now() - begun;
    const horizon = (size / 5 + 3) * 86_400;
    let other: CpSatAnswer = await solveByCpSat(job, horizon, { workers: 1, seconds });
    if (other.status === 'optimal') {
      const again = await solveByCpSat(job, horizon, { workers: 2, seconds });
      if (again.status === 'optimal' && again.milliseconds < other.milliseconds) other = again;
    }
    const ownSettled = own.status === 'optimal';
    const otherSettled = other.status === 'optimal';
    if (ownSettled && otherSettled && own.makespan !== other.makespan) disagreements++;
    if (other.status === 'infeasible' && own.starts !== undefined) disagreements++;
    if (own.starts === undefined || checkSchedule(job, own.starts).length > 0) disagreements++;
    rows.push({ size, own: ownTime, other: other.milliseconds, ownSettled, otherSettled });
  }
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;
const show = (name: string, part: readonly Row[]): string =>
  [
    name.padEnd(10),
    `${part.filter(row => row.ownSettled).length}/${part.length}`.padStart(8),
    `${part.filter(row => row.ownSettled && row.own < 100).length}`.padStart(8),
    median(part.map(row => row.own))
      .toFixed(1)
      .padStart(10),
    `${part.filter(row => row.otherSettled).length}/${part.length}`.padStart(8),
    median(part.map(row => row.other))
      .toFixed(1)
      .padStart(10),
    `${median(part.map(row => row.other / row.own)).toFixed(1)}`.padStart(8),
  ].join('  ');

console.log('activities  settled  <100 ms  median ms  CP-SAT:  median ms  times as fast (median)');
for (const size of SIZES)
  console.log(
    show(
      `${size}`,
      rows.filter(row => row.size === size),
    ),
  );
console.log(show('all', rows));
console.log(`disagreements: ${disagreements}`);
process.exit(disagreements === 0 ? 0 : 1);
