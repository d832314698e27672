/**
 * From a parsed and linked file to all that is known of it: the typed job, its computed quantities, its findings. The
 * command line, the language server and the browser all come through here, so they can't disagree.
 */
import { type LangiumDocument, URI } from 'langium';
import type { Finding } from '../checks/check.ts';
import { runChecks } from '../checks/run.ts';
import { placeOf, placeOfPart } from '../evaluate/places.ts';
import type { Problem } from '../evaluate/problem.ts';
import type { Explained } from '../explain/explain.ts';
import { type BayExposure, exposuresOf, inSequence, tracksOf, type WorkTracks } from '../exposure/fromTracks.ts';
import type { Document, Reference } from '../generated/ast.ts';
import type { ImportResult } from '../grammar/imports.ts';
import { problemsOf, type Syntax } from '../grammar/services.ts';
import { assembleJob } from '../job/assemble.ts';
import type { Job } from '../job/job.ts';
import { type Keeper, type Memory, withoutMemory } from '../job/memory.ts';
import { analyseQuantities, lookupIn } from '../quantities/quantities.ts';
import { type Built, buildProblem } from '../schedule/build.ts';
import { type Review, reviewOf } from '../schedule/review.ts';
import { placedTracks, type Schedule, type Scheduling, schedulingOf } from '../schedule/schedule.ts';
import type { System } from '../units/index.ts';

export interface Analysis {
  readonly job: Job;
  readonly quantities: ReadonlyMap<string, Explained>;
  /** Who does what when, and what is proved of it. */
  readonly schedule: Schedule;
  /** What it means: recall, odds, duties; why there is none. */
  readonly review: Review;
  /**
   * Where each machine is, when: work by work, bay by bay, at the starts of the schedule. Where there is no schedule, one
   * after another as if machines and closures were no limit.
   */
  readonly works: readonly WorkTracks[];
  /** What each point of each bay goes through. */
  readonly exposures: readonly BayExposure[];
  /** Those of the file itself and those that its use of a library brought out; by place. */
  readonly findings: readonly Finding[];
  /** Goes on with a provisional schedule for about so many conflicts; absent once there is nothing left to do. */
  readonly further?: (conflicts: number) => Analysis;
  /** Goes on with the search alone, until told that it is enough; whether it is done. `further(0)` then says what follows. */
  readonly searchOn?: (enough: () => boolean) => boolean;
}

export interface AnalyseOptions {
  /** Date on which waivers are judged, ISO; by default the job's own. */
  readonly asOf?: string;
  /** The unit system in which messages and results show numbers; by default the author's own. */
  readonly system?: System;
  /** Stop the search for a schedule after about so many conflicts; what is found so far is provisional. To the end by default. */
  readonly conflicts?: number;
  /** Stop the search when this says so; asked every so many conflicts, after the first ones. */
  readonly enough?: () => boolean;
  /** What is kept from one text of this file to the next. The analysis of the text before is spent by that. */
  readonly memory?: Memory;
}

/** Analyses one file. Total: whatever stands in the text, an analysis comes out. */
export function analyse(
  document: LangiumDocument<Document>,
  syntax: Pick<Syntax, 'names' | 'imports' | 'shared'>,
  options: AnalyseOptions = {},
): Analysis {
  const imports = syntax.imports.of(document);
  const fresh = assembleJob({
    main: document,
    problems: [...syntaxProblems(document), ...importProblems(imports, document)],
    namesAt: namesFrom(syntax),
    ...(options.system && { system: options.system }),
    ...(options.memory && { readings: options.memory.readings }),
    brought: imports.flatMap(({ use, state }) =>
      state === 'ok' ? [{ use, target: syntax.imports.targetOf(use) }] : [],
    ),
    standing: imports.flatMap(each => {
      const target = each.use.name === undefined ? syntax.imports.targetOf(each.use) : undefined;
      return target ? [target] : [];
    }),
  });
  const keeper = options.memory?.begin(fresh) ?? withoutMemory(fresh);
  const { job, keep } = keeper;
  const unscheduled = job.plans.map((plan, i) =>
    keep(`tracks ${i} ${plan.work.id}`, [plan], (known, keepPart) => tracksOf(plan, known, { keep: keepPart })),
  );
  const built = keep('problem', unscheduled, (known, keepPart) => buildProblem(known, unscheduled, keepPart));
  const { scheduling, goesOn } = schedulingFor(built, keeper);
  const context: Context = {
    keeper,
    unscheduled,
    scheduling,
    textOf: file => syntax.shared.workspace.LangiumDocuments.getDocument(URI.parse(file))?.textDocument.getText() ?? '',
    ...(options.asOf !== undefined && { asOf: options.asOf }),
  };
  // A search that goes on anyway need not hold up what is known already.
  const conflicts = goesOn && options.enough ? 0 : (options.conflicts ?? Number.MAX_SAFE_INTEGER);
  return analysisAfter(context, conflicts, options.enough);
}

interface Context {
  readonly keeper: Keeper;
  /** Each work from 0, as if it were alone. */
  readonly unscheduled: readonly WorkTracks[];
  readonly scheduling: Scheduling;
  readonly textOf: (file: string) => string;
  readonly asOf?: string;
}

/** All that follows from the tracks, after so many more conflicts of the search for a schedule. */
function analysisAfter(context: Context, conflicts: number, enough: () => boolean = () => false): Analysis {
  const { keeper, unscheduled, scheduling, textOf, asOf } = context;
  const { job, keep } = keeper;
  for (let left = conflicts; left > 0 && !scheduling.done; left -= SLICE) {
    scheduling.step(Math.min(left, SLICE));
    if (enough()) break;
  }
  const schedule = scheduling.schedule();
  keeper.doubts?.mark(schedule, keeper.doubts.of(scheduling));
  const review = keep('review', [schedule], () => reviewOf(schedule));
  const works = placedTracks(schedule, keeper) ?? keep('in sequence', unscheduled, () => inSequence(unscheduled));
  const exposures = exposuresOf(works);
  const computed = analyseQuantities(job, { works, exposures, schedule, review }, keeper);
  const quantities = computed.known;
  const findings = runChecks({
    job,
    quantities,
    works,
    exposures,
    schedule,
    review,
    lookup: lookupIn(computed),
    system: job.system,
    textOf,
    keep,
    ...(asOf !== undefined && { asOf }),
    ...(keeper.doubts && {
      doubt: {
        doubts: keeper.doubts,
        works: keeper.doubts.of(...unscheduled),
        schedule: keeper.doubts.of(schedule, review),
        quantity: computed.inDoubt,
      },
    }),
  });
  keeper.done();
  return {
    job,
    quantities,
    schedule,
    review,
    works,
    exposures,
    findings,
    ...(!scheduling.done && {
      further: (more: number) => analysisAfter(context, more),
      searchOn: (until: () => boolean) => {
        while (!scheduling.done && !until()) scheduling.step(SLICE);
        return scheduling.done;
      },
    }),
  };
}

/** Conflicts between two looks at whether the search is done. */
const SLICE = 25;

/** The search for a schedule; that of the text before goes on where it asks for the same. */
function schedulingFor(built: Built, { keep, last }: Keeper) {
  const before = last<Scheduling>('scheduling');
  const scheduling = keep('scheduling', [built], () => schedulingOf(built, before));
  return { scheduling, goesOn: scheduling.goesOnFrom(before) };
}

/** Names that could be meant at a reference. The job keeps this function, so nothing else may be in its reach. */
function namesFrom(syntax: Pick<Syntax, 'names'>): (reference: Reference) => Iterable<string> {
  return function* (reference) {
    for (const visible of syntax.names.visibleNames(reference)) yield visible.name;
  };
}

/** What the parser found, with the file it stands in. */
function syntaxProblems(document: LangiumDocument): readonly Problem[] {
  const file = document.uri.toString();
  return problemsOf(document).map(({ code, message, offset, end, data }) => ({
    code,
    message,
    place: { file, start: offset, end },
    data,
  }));
}

const OUTSIDE: Readonly<Record<NonNullable<ImportResult['reason']>, string>> = {
  absolute: 'it is an absolute path',
  above: 'it leads above the workspace',
  backslash: 'it has a backslash; folders are parted by /',
  encoded: 'it has encoded characters (%…)',
  scheme: 'it is the address of something that is no file of the workspace',
  'odd-name': 'it has a name that not every system can hold',
  link: 'it goes through a link',
};

/** What became of each `use`, where it did not bring a file in. */
function importProblems(imports: readonly ImportResult[], document: LangiumDocument): readonly Problem[] {
  const problems: Problem[] = [];
  const prefixes = new Set<string>();
  for (const each of imports) {
    const place = each.use.path === undefined ? placeOf(each.use) : placeOfPart(each.use, 'path');
    const path = each.use.path ?? '';
    const message = messageOf(each, path, document);
    if (message)
      problems.push({
        code: `import-${each.state}`,
        message,
        place,
        ...(each.similar && { data: { meant: [path.replace(/[^/]*$/, each.similar)] } }),
      });
    const { name } = each.use;
    if (name === undefined) continue;
    if (prefixes.has(name)) {
      problems.push({
        code: 'duplicate-name',
        message: `Two files are brought in as ${name}, and a name with that prefix would be ambiguous. Call one of them something else.`,
        place: placeOfPart(each.use, 'name'),
      });
    }
    prefixes.add(name);
  }
  return problems;
}

function messageOf(each: ImportResult, path: string, document: LangiumDocument): string | undefined {
  switch (each.state) {
    case 'ok':
      return undefined;
    case 'missing':
      return `There is no file ${path}, seen from this one.${each.similar ? ` Did you mean ${each.similar}?` : ' Check the path; it starts from the folder of this file.'}`;
    case 'outside':
      return `${path} is not read, because ${each.reason ? OUTSIDE[each.reason] : 'it is outside the workspace'}. Bring in only files of the workspace, by a path from this file.`;
    case 'cyclic':
      return `This file and ${path} bring in each other${each.chain && each.chain.length > 3 ? ` (by way of ${each.chain.length - 2} files)` : ''}. Move what both need into a third file.`;
    case 'duplicate':
      return `${path} is brought in twice. One line is enough.`;
    case 'self':
      return `A file can't bring in itself: ${document.uri.path.split('/').at(-1)} is this file. Take the line out.`;
    case 'not-a-broom-file':
      return `${path} is no file of this language. Their names end in .broom.`;
    case 'unreadable':
      return `${path} can't be read. Check that it is text and that you may open it.`;
  }
}
