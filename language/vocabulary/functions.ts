/** The functions of expressions. Evaluation knows them by this table; hover, completion and the reference read it too. */
export const functions = {
  min: { call: 'min(a, b, …)', doc: 'The least of the values; all of one kind.' },
  max: { call: 'max(a, b, …)', doc: 'The greatest of the values; all of one kind.' },
  ceil: { call: 'ceil(value, step)', doc: 'Rounds up to a whole number, or to a multiple of the step.' },
  floor: { call: 'floor(value, step)', doc: 'Rounds down to a whole number, or to a multiple of the step.' },
  round: { call: 'round(value, step)', doc: 'Rounds to the nearest whole number, or to a multiple of the step.' },
  sqrt: { call: 'sqrt(value)', doc: 'The square root; the unit must be a square.' },
  abs: { call: 'abs(value)', doc: 'The value without its sign.' },
} as const satisfies Readonly<Record<string, { readonly call: string; readonly doc: string }>>;
