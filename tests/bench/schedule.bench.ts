/**
 * How long the schedule of a job takes, in milliseconds of processor time, warm: the example jobs and made-up ones of more
 * bays. Run it with `node --experimental-strip-types tests/bench/schedule.bench.ts`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chemicalJob } from '../../language/checks/example.ts';
import { tracksOfJob } from '../../language/exposure/fromTracks.ts';
import { savingsOf } from '../../language/mend/closures.ts';
import { withBroomLost } from '../../language/schedule/recall.ts';
import { reviewOf } from '../../language/schedule/review.ts';
import { scheduleToEnd } from '../../language/schedule/schedule.ts';
import { jobOf } from '../support/jobs.ts';

const root = fileURLToPath(new URL('../../examples/', import.meta.url));
const texts = Object.fromEntries(
  readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter(name => name.endsWith('.broom'))
    .map(name => [name, readFileSync(join(root, name), 'utf8')]),
);

/** Median processor time of a few runs after a warm-up, ms. */
function time(run: () => unknown, runs = 9): number {
  run();
  run();
  const times = Array.from({ length: runs }, () => {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[runs >> 1]!;
}

const cell = (value: string | number, width: number): string =>
  (typeof value === 'number' ? value.toFixed(1) : value).padStart(width);

console.log(
  `${'job'.padEnd(38)}${['activities', 'closures', 'proved', 'schedule', 'review', 'broom lost', 'savings'].map(each => cell(each, 12)).join('')}`,
);
const examples = Object.keys(texts)
  .filter(name => /^work /m.test(texts[name]!) && !name.startsWith('wrong'))
  .map(name => [name, { [name]: texts[name]!, ...texts }] as const);
const bays = [12, 18, 24].map(
  count => [`${count} bays`, chemicalJob.replace('bays:       6', `bays:       ${count}`)] as const,
);
for (const [name, source] of [...examples, ...bays]) {
  const job = await jobOf(source);
  const works = tracksOfJob(job);
  const schedule = scheduleToEnd(job, works);
  const { proof } = schedule;
  const columns = [
    String(schedule.built.tasks.length),
    String(proof?.closures ?? schedule.state),
    proof?.provedLeast && proof.provedEarliest ? 'yes' : 'no',
    time(() => scheduleToEnd(job, works)),
    time(() => reviewOf(schedule)),
    time(() => withBroomLost(job, schedule), 3),
    time(() => savingsOf(job, schedule), 3),
  ];
  console.log(`${name.padEnd(38)}${columns.map(each => cell(each, 12)).join('')}`);
}
