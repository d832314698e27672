/**
 * Runs all checks over a job and its results, and applies the job's waivers. Total: a check that breaks becomes a finding
 * of its own and never costs the others.
 *
 * What a check says after it read something that can't be read is held back: the slip itself is reported where it stands, and
 * a reader has to see that and not its consequences.
 */
import { concerns, EVERYTHING, type InDoubt } from '../job/doubts.ts';
import type { BlockRef } from '../vocabulary/given.ts';
import type { Check, Finding, Report, Results, Severity } from './check.ts';
import { checks as allChecks } from './registry.ts';
import { applyWaivers, lookupIn, notedIn } from './waivers.ts';

/**
 * All findings of a job: those of the stages before (syntax, names, units, values), of every check, and of the waivers
 * themselves. Waived ones stay in the list with `waived` set.
 *
 * @param results the job with its computed quantities; `asOf` is the date on which waivers are judged
 * @returns findings by file (the job's own first), place, severity and code; the same input gives the same list
 */
export function runChecks(results: Results, checks: readonly Check[] = allChecks): readonly Finding[] {
  const whole = watched(withRequirements(results));
  const isHeldBack = holding(whole);
  const inDoubt = new Map<string, InDoubt>();
  const found = checks.flatMap(check => {
    const { findings, read } = runOne(check, whole, isHeldBack);
    if (read.size > 0) inDoubt.set(check.code, read);
    return findings;
  });
  const once = distinct([...found, ...withoutCheck(whole, checks)]);
  return applyWaivers(once, whole, checks, inDoubt).toSorted(order(results.job.file));
}

/** The results, which note who reads of them what is in doubt. */
function watched(results: Results): Results {
  const { doubt, lookup, quantities } = results;
  if (!doubt) return results;
  const { doubts } = doubt;
  // What is said of the schedule is said of all that is in it.
  const schedule = doubt.schedule.size > 0 ? [EVERYTHING] : [];
  const noting = (path: string): void => doubts.note(doubt.quantity(path));
  return {
    ...results,
    get works() {
      doubts.note(doubt.works);
      return results.works;
    },
    get exposures() {
      doubts.note(doubt.works);
      return results.exposures;
    },
    get schedule() {
      doubts.note(schedule);
      return results.schedule;
    },
    get review() {
      doubts.note(schedule);
      return results.review;
    },
    quantities: new Proxy(quantities, {
      get: (_, key) => {
        if (key === 'get' || key === 'has') {
          return (path: string) => {
            noting(path);
            return quantities[key](path);
          };
        }
        for (const path of quantities.keys()) noting(path);
        const value = Reflect.get(quantities, key) as unknown;
        return typeof value === 'function' ? value.bind(quantities) : value;
      },
    }),
    ...(lookup && {
      lookup: (path: string) => {
        noting(path);
        return lookup(path);
      },
    }),
  };
}

type HeldBack = (read: InDoubt, about: BlockRef | undefined) => boolean;

/** Whether what is said may be a consequence of what was read and is in doubt. */
function holding({ doubt, job }: Results): HeldBack {
  if (!doubt) return () => false;
  const isConcerned = concerns(job);
  return (read, about) => [...read].some(id => isConcerned(id, about));
}

/** The results with what is wrong in the author's requirements among the problems: it shows only when they are judged. */
function withRequirements(results: Results): Results {
  const seen = watched(results);
  const problems = results.job.requirements.flatMap(requirement => {
    const { value, read } = notedIn(results, () => requirement.evaluate(lookupIn(seen)));
    if (!('problem' in value)) return [];
    // There may be a quantity of that name once all can be read, unless it is plainly misspelt.
    return read.size === 0 || value.problem.data?.meant ? [value.problem] : [];
  });
  if (problems.length === 0) return results;
  // What is watched of the job stays so.
  const { problems: before, ...rest } = Object.getOwnPropertyDescriptors(results.job);
  const all = { ...before, value: [...results.job.problems, ...problems] };
  return { ...results, job: Object.defineProperties({}, { ...rest, problems: all }) as Results['job'] };
}

/** A report as a finding of its check. */
export function findingOf(check: Pick<Check, 'code' | 'severity'>, report: Report): Finding {
  return { ...report, code: check.code, severity: check.severity, fixes: report.fixes ?? [] };
}

function runOne(
  check: Check,
  results: Results,
  isHeldBack: HeldBack,
): { readonly findings: readonly Finding[]; readonly read: InDoubt } {
  const findings: Finding[] = [];
  try {
    const { read } = notedIn(results, so => {
      for (const report of check.find(results)) {
        if (check.ofText || !isHeldBack(so, report.about)) findings.push(findingOf(check, report));
      }
    });
    return { findings, read };
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    findings.push({
      code: 'check-failed',
      severity: 'error',
      message: `The check '${check.code}' could not be carried out (${said}), so nothing is known of what it looks for. All other checks were. Report it with this text.`,
      place: { file: results.job.file, start: 0, end: 0 },
      fixes: [],
    });
  }
  return { findings, read: new Set() };
}

/** A stage's problem whose code no check explains is shown all the same: nothing that was found may be lost. */
function withoutCheck(results: Results, checks: readonly Check[]): readonly Finding[] {
  const known = new Set(checks.map(check => check.code));
  return results.job.problems
    .filter(problem => !known.has(problem.code))
    .map(({ code, message, place, related }) => ({
      code,
      severity: 'error' as const,
      message,
      place,
      fixes: [],
      ...(related && { related }),
    }));
}

function distinct(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return findings.filter(({ code, place, message }) => {
    const key = JSON.stringify([code, place.file, place.start, place.end, message]);
    return !seen.has(key) && seen.add(key);
  });
}

const ranks: Readonly<Record<Severity, number>> = { error: 0, warning: 1, hint: 2 };

function order(jobFile: string): (a: Finding, b: Finding) => number {
  return (a, b) =>
    Number(a.place.file !== jobFile) - Number(b.place.file !== jobFile) ||
    compare(a.place.file, b.place.file) ||
    a.place.start - b.place.start ||
    ranks[a.severity] - ranks[b.severity] ||
    compare(a.code, b.code) ||
    a.place.end - b.place.end ||
    compare(a.message, b.message);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
