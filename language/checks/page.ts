/** The page of a check, in Markdown: for the documentation, the editor's links and `broomline explain CODE`. */
import { citation } from '../sources/sources.ts';
import type { Changes, Check, Example, Severity } from './check.ts';

/** The whole page. It holds nothing that is not in the check's own file. */
export function checkPage(check: Check): string {
  return [
    `# ${check.title}`,
    `\`${check.code}\` · ${severityText[check.severity]} · ${waiverText(check)}`,
    ...section('Why it matters', check.why),
    ...section('Example', exampleText(check.bad, 'bad')),
    ...section('Instead', check.good === undefined ? insteadOf(check.bad) : exampleText(check.good, 'bad')),
    ...section('Source', `${citation(check.source)}.`),
    ...(check.safety ? [caution] : []),
  ]
    .join('\n\n')
    .concat('\n');
}

const severityText: Readonly<Record<Severity, string>> = {
  error: 'error: must be mended',
  warning: 'warning: should be mended',
  hint: 'hint',
};

const caution =
  'This tool computes; it certifies nothing. The airport operator, the safety data sheet, local codes and licensed practice govern.';

function waiverText(check: Check): string {
  if (check.safety) return "safety: can't be waived";
  return check.waivable ? 'can be waived with a reason and a name' : "can't be waived";
}

function section(heading: string, body: string | undefined): string[] {
  return body === undefined ? [] : [`## ${heading}`, body];
}

function insteadOf(bad: Example): string | undefined {
  return typeof bad === 'string' ? undefined : exampleText(bad, 'good');
}

function exampleText(example: Example, side: 'good' | 'bad'): string {
  if (typeof example === 'string') return fenced(example);
  const changes = Array.isArray(example) ? (example as Changes) : (example as { water: Changes }).water;
  // The change is between the lines of the common job: what was there, or what stands there now.
  const shown = changes.filter((_, i) => i % 2 === (side === 'bad' ? 1 : 0)).map(dedent);
  return fenced(shown.filter(text => text !== '').join('\n…\n') || '// nothing stands here');
}

function fenced(text: string): string {
  const lines = text.replace(/^\n+|\s+$/g, '').split('\n');
  const shown = lines.length > 40 ? [...lines.slice(0, 16), '…'] : lines;
  return ['```broom', ...shown, '```'].join('\n');
}

function dedent(text: string): string {
  const lines = text.replace(/^\n+|\s+$/g, '').split('\n');
  const margin = Math.min(...lines.filter(line => line.trim()).map(line => /^ */.exec(line)![0].length));
  return lines.map(line => line.slice(Number.isFinite(margin) ? margin : 0)).join('\n');
}
