/** A text with its quantities in the other unit system, for proofs that a job is the same in either. */
import { convertLiteral, parseUnit } from '../../language/units/index.ts';

const counterparts: readonly (readonly [metric: string, us: string])[] = [
  ['km/h', 'mph'],
  ['m', 'ft'],
  ['mm', 'in'],
  ['L/m2', 'gal/ft2'],
  ['L/min', 'gal/min'],
  ['L', 'gal'],
  ['m3', 'ft3'],
  ['bar', 'psi'],
  ['°C', '°F'],
  ['kg/m3', 'lb/ft3'],
  ['EUR/L', 'EUR/gal'],
  ['EUR/m3', 'EUR/ft3'],
  ['EUR/m2', 'EUR/ft2'],
  ['t', 'lb'],
];

/** Every literal and table cell with its unit in the other system's, good to twelve digits. */
export function inOtherUnits(text: string): string {
  const other = new Map([...counterparts, ...counterparts.map(([a, b]) => [b, a] as const)]);
  let columns: readonly (string | undefined)[] | undefined;
  return text
    .split('\n')
    .map(line => {
      const [code, comment] = splitComment(line);
      const header = /table (.*)$/.exec(code);
      if (header) {
        const units = header[1]!.split(',').map(column => column.trim().split(' ')[1]);
        columns = units;
        return (
          code.replace(
            header[1]!,
            header[1]!.replaceAll(/(\S+) (\S+?)(?=,|\s*$)/g, (_, word, unit) => `${word} ${other.get(unit) ?? unit}`),
          ) + comment
        );
      }
      if (columns && /^\s*[-−]?[\d.]/.test(code)) {
        const units = columns;
        let i = 0;
        return code.replaceAll(/[^\s"]+|"[^"]*"/g, cell => convert(cell, units[i++], other)) + comment;
      }
      if (code.trim() !== '') columns = undefined;
      return (
        code.replaceAll(literal, (whole, first: string | undefined, number: string, blank: string, unit: string) => {
          const to = other.get(unit);
          if (!to) return whole;
          return `${first === undefined ? '' : `${convert(first, unit, other)} to `}${convert(number, unit, other)}${blank}${to}`;
        }) + comment
      );
    })
    .join('\n');
}

const literal =
  /(?:(-?[\d.]+) to )?(-?\b\d[\d.]*)( ?)((?:[A-Z]{3}\/)?(?:°[CF]|gal\/1000 ft2|[a-zA-Zµ]+\d?(?:\/[a-z]+\d?)?))(?![\w"])/g;

function convert(cell: string, unit: string | undefined, other: ReadonlyMap<string, string>): string {
  const to = unit === undefined ? undefined : other.get(unit);
  if (!unit || !to) return cell;
  return convertLiteral(cell.replace('−', '-'), parseUnit(unit)!, parseUnit(to)!, 14) ?? cell;
}

function splitComment(line: string): readonly [code: string, comment: string] {
  const at = line.indexOf('//');
  return at < 0 ? [line, ''] : [line.slice(0, at), line.slice(at)];
}
