/** Reading units: in the lexer (`matchUnit`) and as text (`parseUnit`). */
import type { Unit } from './types.ts';
/** The unit that this text is, all of it; undefined when it is none. */
export declare function parseUnit(text: string): Unit | undefined;
/** Length of the longest unit that starts at `offset`, 0 when none does. */
export declare function matchUnit(text: string, offset: number): number;
/** Codes of all characters a unit can start with. */
export declare function unitStartChars(): number[];
