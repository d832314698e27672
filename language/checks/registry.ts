/** All checks, by code. Adding one is adding its file: `npm run new:check -- GROUP CODE` writes it and its line here. */
import type { Check } from './check.ts';
import { all } from './index.ts';

export const checks: readonly Check[] = all;

export const checkByCode: ReadonlyMap<string, Check> = new Map(all.map(check => [check.code, check]));

/** The group of a check is the folder its file lies in. */
export type { CheckGroup } from './index.ts';
export { groupOf } from './index.ts';
