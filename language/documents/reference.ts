/**
 * The reference of the language, in Markdown: a page for each kind of block, one on values and units, one on statements,
 * and the checks. All of it is read off the definitions that errors, completion and hover use, so it can't say anything
 * else. `npm run reference` writes it to language/reference/; a test fails when a page there is stale.
 */
import { checkPage } from '../checks/page.ts';
import { checkByCode, checks } from '../checks/registry.ts';
import { kinds } from '../vocabulary/index.ts';
import { blockPage } from './reference/block.ts';
import { checkIndexPage, indexPage } from './reference/indexes.ts';
import { statementsPage } from './reference/statements.ts';
import { valuesPage } from './reference/values.ts';

/** All pages by their path below language/reference/. */
export function referencePages(): ReadonlyMap<string, string> {
  return new Map([
    ['README.md', indexPage()],
    ['values.md', valuesPage()],
    ['statements.md', statementsPage()],
    ['checks.md', checkIndexPage()],
    ...[...kinds.values()].map(kind => [`blocks/${kind.kind}.md`, blockPage(kind)] as const),
    ...checks.map(check => [`checks/${check.code}.md`, checkPage(check)] as const),
  ]);
}

/** Words that a page can be asked for by, besides kinds of block and codes of checks. */
const OTHERS: Readonly<Record<string, () => string>> = {
  reference: indexPage,
  values: valuesPage,
  statements: statementsPage,
  checks: checkIndexPage,
};

/** The page of a kind of block, of a check by its code, or of `values`, `statements`, `checks`; undefined for other words. */
export function pageNamed(word: string): string | undefined {
  const kind = kinds.get(word);
  if (kind) return blockPage(kind);
  const check = checkByCode.get(word);
  if (check) return checkPage(check);
  return Object.hasOwn(OTHERS, word) ? OTHERS[word]?.() : undefined;
}

/** Every word that `pageNamed` has a page for. */
export function pageNames(): readonly string[] {
  return [...kinds.keys(), ...checkByCode.keys(), ...Object.keys(OTHERS)];
}
