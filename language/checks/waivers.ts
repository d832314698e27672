/**
 * Waivers. A waiver never takes a finding away: it marks it, with the reason and the name of who answers for it. What is
 * wrong with a waiver is a finding itself, and such a waiver does not count.
 */
import type { InDoubt } from '../job/doubts.ts';
import type { Lookup, Waiver } from '../job/job.ts';
import { nearestAll } from '../words/nearest.ts';
import type { Check, Finding, Fix, Results, Severity } from './check.ts';
import { removeLines, today } from './help.ts';

/** Marks the findings that a waiver of the job covers and adds what is wrong with the waivers. Library waivers don't reach jobs. */
export function applyWaivers(
  findings: readonly Finding[],
  results: Results,
  checks: readonly Check[],
  /** What checks read that is in doubt, by their codes: they may find what they are waived for once it can be read. */
  inDoubt: ReadonlyMap<string, InDoubt> = new Map(),
): readonly Finding[] {
  const own = results.job.waivers.filter(waiver => !waiver.fromLibrary);
  const judged = own.map(waiver => ({
    waiver,
    ...judge(waiver, findings, results, checks, inDoubt.has(waiver.check)),
  }));
  const marked = findings.map(finding => {
    const by = judged.find(({ holds, covers }) => holds && covers.has(finding));
    return by ? { ...finding, waived: waivedBy(by.waiver) } : finding;
  });
  return [...marked, ...judged.flatMap(each => each.complaints)];
}

interface Judged {
  readonly holds: boolean;
  readonly covers: ReadonlySet<Finding>;
  readonly complaints: readonly Finding[];
}

function judge(
  waiver: Waiver,
  findings: readonly Finding[],
  results: Results,
  checks: readonly Check[],
  inDoubt: boolean,
): Judged {
  const nothing: ReadonlySet<Finding> = new Set();
  const check = checks.find(each => each.code === waiver.check);
  if (!check) {
    const meant = nearestAll(
      waiver.check,
      checks.filter(each => each.waivable).map(each => each.code),
    );
    const message = `There is no check '${waiver.check}', so nothing is waived.${
      meant.length > 0 ? ` Did you mean ${meant.join(' or ')}?` : ' The code stands behind each finding.'
    }`;
    const fixes = meant.map(word => replaced(waiver, word));
    return {
      holds: false,
      covers: nothing,
      complaints: [complain('waiver-unknown-check', 'error', waiver, message, fixes)],
    };
  }
  if (!check.waivable) {
    const why = check.safety
      ? 'it is one of the safety checks, and what can hurt someone is not signed away in a file'
      : 'it is an error of the text itself';
    const message = `'${check.code}' can't be waived: ${why}. Mend what it finds, and remove this line.`;
    return { holds: false, covers: nothing, complaints: [complain('waiver-not-allowed', 'error', waiver, message)] };
  }
  const covers = new Set(findings.filter(finding => finding.code === check.code && isAbout(finding, waiver)));
  const complaints = [
    ...incomplete(waiver),
    ...(covers.size > 0 ? lapsed(waiver, results) : inDoubt ? [] : [withoutEffect(waiver, results)]),
  ];
  return { holds: complaints.length === 0, covers, complaints };
}

function waivedBy(waiver: Waiver): NonNullable<Finding['waived']> {
  const { reason = '', signatory = '', until, place } = waiver;
  return { reason, by: signatory, place, ...(until !== undefined && { until }) };
}

/** Without a target a waiver covers every finding of its check; with one, those on that block or in it. */
function isAbout(finding: Finding, { target }: Waiver): boolean {
  if (!target) return true;
  const { about } = finding;
  if (!about) return false;
  const within = (inner: string, outer: string) =>
    inner === outer || (inner.startsWith(outer) && /[./#]/.test(inner[outer.length] ?? ''));
  return within(about.name, target.path) || (target.id !== undefined && within(about.id, target.id));
}

function incomplete(waiver: Waiver): readonly Finding[] {
  const missing: Finding[] = [];
  if (!waiver.reason?.trim()) {
    const message = `This waiver gives no reason, so it does not count. Whoever reads the job has to know why '${waiver.check}' is accepted here: add \`because "…"\`.`;
    missing.push(complain('waiver-without-reason', 'error', waiver, message));
  }
  if (!waiver.signatory?.trim()) {
    const message = `Nobody answers for this waiver, so it does not count. Add who does: \`by "…"\`.`;
    missing.push(complain('waiver-without-name', 'error', waiver, message));
  }
  return missing;
}

function withoutEffect(waiver: Waiver, results: Results): Finding {
  const on = waiver.target ? ` on ${waiver.target.path}` : '';
  const message = `There is no finding '${waiver.check}'${on}, so this waiver does nothing. Remove it, or it will hide the next one unseen.`;
  const fixes = removeLines(results, waiver.place, 'Remove the waiver');
  return { ...complain('waiver-without-effect', 'warning', waiver, message, fixes), unused: true };
}

function lapsed(waiver: Waiver, results: Results): readonly Finding[] {
  const { value: date, read } = notedIn(results, () => today(results));
  if (read.size > 0) return [];
  const said: string[] = [];
  if (waiver.until !== undefined && date === undefined) {
    said.push(`it ends on ${waiver.until}, but the job has no date to judge that on. Add \`date: …\` to the job block`);
  } else if (waiver.until !== undefined && date !== undefined && waiver.until < date) {
    said.push(
      `it ended on ${waiver.until}, and the job is judged on ${date}. Decide again: mend what it covers, or sign it anew`,
    );
  }
  const { condition } = waiver;
  const judged = condition && notedIn(results, () => whyNot(condition.text, condition.evaluate(lookupIn(results))));
  // A condition on what can't be read is not judged.
  if (judged?.value && judged.read.size === 0) said.push(judged.value);
  return said.map(why => complain('waiver-lapsed', 'error', waiver, `This waiver no longer counts: ${why}.`));
}

/** Does something with the results, and tells what it read that is in doubt. */
export function notedIn<T>(
  { doubt }: Results,
  make: (read: InDoubt) => T,
): { readonly value: T; readonly read: InDoubt } {
  const none: InDoubt = new Set();
  return doubt ? doubt.doubts.noting(make) : { value: make(none), read: none };
}

type Outcome = ReturnType<NonNullable<Waiver['condition']>['evaluate']>;

function whyNot(text: string, outcome: Outcome): string | undefined {
  if ('problem' in outcome) return `its condition can't be read. ${outcome.problem.message.replace(/\.$/, '')}`;
  if ('missing' in outcome)
    return `its condition ${text} can't be judged, because ${outcome.missing} could not be computed`;
  if (outcome.holds) return undefined;
  const sides =
    outcome.left !== undefined
      ? `: it is ${outcome.left}${outcome.right === undefined ? '' : `, against ${outcome.right}`}`
      : '';
  return `its condition ${text} does not hold${sides}. Mend what it covers, or sign it anew`;
}

/** Computed quantities by path, for conditions and requirements. */
export function lookupIn(results: Results): Lookup {
  if (results.lookup) return results.lookup;
  return path => {
    const quantity = results.quantities.get(path);
    if (!quantity) return 'unknown';
    return Number.isFinite(quantity.value) ? { value: quantity.value, kind: quantity.kind } : 'missing';
  };
}

function replaced(waiver: Waiver, word: string): Fix {
  return { title: `Write \`${word}\``, edits: [{ place: waiver.checkPlace, text: word }], safe: false };
}

function complain(
  code: string,
  severity: Severity,
  waiver: Waiver,
  message: string,
  fixes: readonly Fix[] = [],
): Finding {
  return { code, severity, message, place: waiver.place, fixes };
}
