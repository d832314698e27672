/**
 * The fixed words of the pictures in the reader's language: titles, legends, labels, refusals. They are chosen where a
 * picture is drawn, by the English text; `npm run manifest` collects every text that is handed to `t` or `said`. What the
 * stages compute, findings and the verdict, stays English, as the language of the jobs is.
 */

/** Gives a text in the reader's language, with `{0}`, `{1}` … replaced by the values. */
export type Translate = (text: string, ...values: readonly (string | number)[]) => string;

/** A text that is worded only where it is shown: English with `{0}` …, and what stands in them. It travels as JSON. */
export type Said = readonly [text: string, ...values: (string | number)[]];

/** Words from a table of English texts and their translations; a text that is not in it stays English. */
export function translator(table: Readonly<Record<string, unknown>> = {}): Translate {
  return (text, ...values) => {
    const own = Object.hasOwn(table, text) ? table[text] : undefined;
    return (typeof own === 'string' ? own : text).replace(/\{(\d+)\}/g, (whole, i: string) =>
      String(values[Number(i)] ?? whole),
    );
  };
}

export const english: Translate = translator();

/** A text to be worded later; a literal, so that it is found for translation. */
export function said(text: string, ...values: readonly (string | number)[]): Said {
  return [text, ...values];
}

/** Words what was said. */
export function tell(t: Translate, [text, ...values]: Said): string {
  return t(text, ...values);
}
