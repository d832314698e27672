/**
 * Runs all checks over a job and its results, and applies the job's waivers. Total: a check that breaks becomes a finding
 * of its own and never costs the others.
 */
import type { Check, Finding, Report, Results, Severity } from './check.ts';
import { checks as allChecks } from './registry.ts';
import { applyWaivers, lookupIn } from './waivers.ts';

/**
 * All findings of a job: those of the stages before (syntax, names, units, values), of every check, and of the waivers
 * themselves. Waived ones stay in the list with `waived` set.
 *
 * @param results the job with its computed quantities; `asOf` is the date on which waivers are judged
 * @returns findings by file (the job's own first), place, severity and code; the same input gives the same list
 */
export function runChecks(results: Results, checks: readonly Check[] = allChecks): readonly Finding[] {
  const whole = withRequirements(results);
  const found = [...checks.flatMap(check => runOne(check, whole)), ...withoutCheck(whole, checks)];
  const once = distinct(found);
  return applyWaivers(once, results, checks).toSorted(order(results.job.file));
}

/** The results with what is wrong in the author's requirements among the problems: it shows only when they are judged. */
function withRequirements(results: Results): Results {
  const outcomes = results.job.requirements.map(requirement => requirement.evaluate(lookupIn(results)));
  const problems = outcomes.flatMap(outcome => ('problem' in outcome ? [outcome.problem] : []));
  if (problems.length === 0) return results;
  return { ...results, job: { ...results.job, problems: [...results.job.problems, ...problems] } };
}

/** A report as a finding of its check. */
export function findingOf(check: Pick<Check, 'code' | 'severity'>, report: Report): Finding {
  return { ...report, code: check.code, severity: check.severity, fixes: report.fixes ?? [] };
}

function runOne(check: Check, results: Results): readonly Finding[] {
  const found: Finding[] = [];
  try {
    for (const report of check.find(results)) found.push(findingOf(check, report));
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    found.push({
      code: 'check-failed',
      severity: 'error',
      message: `The check '${check.code}' could not be carried out (${said}), so nothing is known of what it looks for. All other checks were. Report it with this text.`,
      place: { file: results.job.file, start: 0, end: 0 },
      fixes: [],
    });
  }
  return found;
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
