/**
 * What we add to Langium's parsing and linking, on one job of 2,000 lines, in one run: `node tests/bench/analysis.bench.ts`.
 *
 * The job is examples/sanderling-field six times over, each copy with names of its own: six works with their deposits,
 * methods, plant and closures. Warm, in turns; medians of processor time, since other work on the machine comes and goes.
 */
import { readFileSync } from 'node:fs';
import { type LangiumDocument, URI } from 'langium';
import { runChecks } from '../../language/checks/run.ts';
import { exposuresOf, tracksOfJob } from '../../language/exposure/fromTracks.ts';
import type { Document } from '../../language/generated/ast.ts';
import { createSyntax } from '../../language/grammar/services.ts';
import { assembleJob } from '../../language/job/assemble.ts';
import { analyseQuantities, lookupIn } from '../../language/quantities/quantities.ts';
import { reviewOf } from '../../language/schedule/review.ts';
import { createScheduling, placedTracks } from '../../language/schedule/schedule.ts';
import { nameRules } from '../../language/vocabulary/names.ts';

const LINES = 2000;
const ROUNDS = Number(process.argv[2] ?? 40);

const syntax = createSyntax({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules });
const text = bigJob(
  readFileSync(new URL('../../examples/sanderling-field/touchdown-17.broom', import.meta.url), 'utf8'),
);

async function parseAndLink(): Promise<LangiumDocument<Document>> {
  const document = syntax.shared.workspace.LangiumDocumentFactory.fromString<Document>(
    text,
    URI.parse('memory:/big.broom'),
  );
  await syntax.shared.workspace.DocumentBuilder.build([document], { validation: false });
  return document;
}

const stages: Record<string, number[]> = {};
function time<T>(stage: string, work: () => T): T {
  const before = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(before);
  stages[stage] = [...(stages[stage] ?? []), (user + system) / 1000];
  return result;
}

for (let round = 0; round < ROUNDS; round++) {
  const before = process.cpuUsage();
  const document = await parseAndLink();
  const { user, system } = process.cpuUsage(before);
  stages['parse and link'] = [...(stages['parse and link'] ?? []), (user + system) / 1000];

  const job = time('evaluate to the typed job', () => assembleJob({ main: document }));
  const tracks = time('tracks', () => tracksOfJob(job));
  const schedule = time('schedule', () => {
    const scheduling = createScheduling(job, tracks);
    while (!scheduling.done) scheduling.step(1000);
    return scheduling.schedule();
  });
  const works = placedTracks(schedule) ?? tracks;
  const exposures = time('exposure', () => exposuresOf(works));
  const review = time('review of the schedule', () => reviewOf(schedule));
  const quantities = time('quantities', () => analyseQuantities(job, { works, exposures, schedule, review }));
  time('checks', () =>
    runChecks({
      job,
      quantities: quantities.known,
      works,
      exposures,
      schedule,
      review,
      lookup: lookupIn(quantities),
      system: job.system,
      textOf: () => text,
    }),
  );
}

const median = (stage: string): number => {
  const sorted = (stages[stage] ?? []).slice(ROUNDS / 4).sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
};
const base = median('parse and link');
console.log(`${text.split('\n').length} lines, ${ROUNDS} rounds, Node ${process.version}`);
for (const stage of Object.keys(stages)) {
  console.log(
    `${stage.padEnd(28)} ${median(stage).toFixed(2).padStart(8)} ms  ${(median(stage) / base).toFixed(2).padStart(6)} ×`,
  );
}
const language = ['evaluate to the typed job', 'quantities', 'checks'].reduce((sum, stage) => sum + median(stage), 0);
console.log(
  `parsed, linked, evaluated, checked: ${((base + language) / base).toFixed(2)} × parsing and linking alone (goal: 2 at most)`,
);

/** The job until it has enough lines; the blocks with names are repeated under names of their own. */
function bigJob(source: string): string {
  const parsed = syntax.parseText(source).document;
  const named = parsed.items.filter(item => item.$type === 'Block' && item.name !== undefined && item.kind !== 'job');
  const names = named.map(item => (item as { name: string }).name);
  const copied = named.map(item => item.$cstNode?.text ?? '').join('\n\n');
  const pattern = new RegExp(`\\b(${names.join('|')})\\b`, 'g');
  let big = source;
  for (let k = 1; big.split('\n').length < LINES; k++) big += `\n\n${copied.replace(pattern, `$1of${k}`)}`;
  return big;
}
