// The two unit libraries that the tests compare with ship no types for these entries; this much of them is used.

declare module 'unitmath/es/UnitMath.js' {
  interface Measured {
    to(unit: string): Measured;
    toSI(): Measured;
    add(other: Measured): Measured;
    getValue(): number;
  }
  const unit: ((text: string) => Measured) & { exists(name: string): boolean };
  export default unit;
}

declare module '@lhncbc/ucum-lhc' {
  interface Utils {
    convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null; msg: string[] };
    validateUnitString(code: string, suggest?: boolean): { status: string; ucumCode: string | null };
  }
  const ucum: { UcumLhcUtils: { getInstance(): Utils } };
  export default ucum;
}
