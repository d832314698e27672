/**
 * Names of computed quantities that an author can use after a dot, by the kind of block, with what they are. Completion,
 * hover and 'did you mean' read this; a test holds it against what the quantities stage really computes.
 */
export const computedWords: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  deposit: { area: 'area of the deposit', length: 'length along the runway', widest: 'greatest width' },
};

/** Computed from the text of one block alone, so that properties may use them too. */
export const earlyWords: Readonly<Record<string, readonly string[]>> = { deposit: ['area', 'length', 'widest'] };
