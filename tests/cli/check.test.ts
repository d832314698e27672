/** `broomline check`: what it prints, in both formats, and how it ends. */
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findingsDocument } from '../../language/documents/findings.ts';
import { broomline, folderOf, root } from './command.ts';

const RUNWAY = `broomline 1
runway Main {
  length: 2450 m
  width: 45 mm
  pavement: grooved asphalt
  end "04"
  end "22"
}
`;

describe('exit status', () => {
  test('0 when there is no finding of severity error', async () => {
    const { status, out, err } = await broomline(['check', 'examples/tern-sands/tender-2031.broom']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/ in 1 file\.\n$/);
  });

  test('1 when there is one', async () => {
    const { status, out } = await broomline(['check', 'examples/wrong-on-purpose.broom']);
    expect(status).toBe(1);
    expect(out).toMatch(/\d+ errors, .* in 1 file\.\n$/);
  });

  test('0 when the only errors are waived: shown, and failing nothing', async () => {
    const cwd = folderOf({});
    cpSync(join(root, 'examples'), cwd, { recursive: true });
    const path = join(cwd, 'tern-sands/tender-2031.broom');
    const weak = readFileSync(path, 'utf8').replace('BroomAndRinse(rate: 0.35 L/m2)', 'BroomAndRinse(rate: 0.2 L/m2)');
    writeFileSync(path, weak);
    const open = await broomline(['check', path], { cwd });
    expect(open.status).toBe(1);
    expect(open.out).toContain('(rate-outside-product)');

    const waiver =
      'waive rate-outside-product on North because "the trial showed that so little does it" by "the engineer" until 2031-12-31';
    writeFileSync(path, `${weak}\n${waiver}\n`);
    const waived = await broomline(['check', path], { cwd });
    expect(waived.out).toContain('waived by the engineer until 2031-12-31: the trial showed that so little does it');
    expect(waived.out).toMatch(/\d waived in/);
    expect(waived.status).toBe(0);

    // The day after the waiver ends it counts for nothing.
    const later = await broomline(['check', path, '--as-of', '2032-01-01'], { cwd });
    expect(later.status).toBe(1);
  });

  test.each([
    [[], /A command is missing/],
    [['chekc', 'x'], /Did you mean check\?/],
    [['check'], /The call is: broomline check PATHS…/],
    [['check', 'a', '--format', 'xml'], /text or json/],
    [['check', 'a', '--format'], /--format needs a value/],
    [['check', 'a', '--as-of', '2031-02-30'], /takes a date/],
    [['check', 'a', '--colour'], /There is no option --colour/],
    [['check', 'a', '--as-off', '2031-01-01'], /Did you mean --as-of\?/],
    [['explain', 'a'], /The call is: broomline explain FILE QUANTITY/],
    [['explain', 'a', 'b', '--format', 'json'], /--format says nothing to explain/],
    [['derive', 'a', 'b'], /The call is: broomline derive FILE/],
    [['check', 'examples/no-such.broom'], /There is no file/],
    [['check', 'language/units'], /no \.broom file in/],
    [['check', 'examples', '--root', 'language'], /outside the root language/],
  ])('2 for wrong use: %j', async (args, message) => {
    const { status, out, err } = await broomline(args);
    expect(err).toMatch(message);
    expect(err).not.toMatch(/\n\s+at /);
    expect({ status, out: out === '' || args.length === 0 }).toEqual({ status: 2, out: true });
  });

  test('2 when one of several files can not be read, with the findings of the others', async () => {
    const cwd = folderOf({
      'good.broom': RUNWAY,
      'latin.broom': new Uint8Array([0x72, 0xfc, 0x0a]),
      'huge.broom': 'x'.repeat(8 * 1024 * 1024 + 1),
    });
    const { status, out, err } = await broomline(['check', '.'], { cwd });
    expect(status).toBe(2);
    expect(err).toContain('latin.broom is not in UTF-8');
    expect(err).toContain('huge.broom has 9 MB');
    expect(out).toContain('45 mm');
  });
});

describe('text', () => {
  test('the line, a stroke under the place, the note below it', async () => {
    const cwd = folderOf({ 'a.broom': RUNWAY });
    const { out } = await broomline(['check', 'a.broom'], { cwd });
    const [heading, , line, stroke, note] = out.split('\n');
    expect([heading, line, stroke]).toEqual(['a.broom', '    4    width: 45 mm', '                ‾‾‾‾‾']);
    expect(note).toMatch(/^ {7}error: /);
    expect(out).toContain('(out-of-range)');
  });

  test('the stroke stands under wide characters and tabs', async () => {
    const cwd = folderOf({ 'a.broom': 'broomline 1\njob J {\n\ttitle: "滑走路", colour: 1\n}\n' });
    const { out } = await broomline(['check', 'a.broom'], { cwd });
    const lines = out.split('\n');
    const at = lines.findIndex(line => line.includes('title:'));
    expect(lines[at]).toBe('    3      title: "滑走路", colour: 1');
    expect(lines[at + 1]).toBe(`${' '.repeat(28)}‾‾‾‾‾‾`);
  });

  test('no colour for a reader that is no terminal, escape codes for one that is', async () => {
    const plain = await broomline(['check', 'examples/wrong-on-purpose.broom']);
    const bright = await broomline(['check', 'examples/wrong-on-purpose.broom'], { colour: true });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the escape character is what is looked for
    const escapes = /\u001B\[[0-9;]*m/g;
    expect(plain.out).not.toMatch(escapes);
    expect(bright.out).toMatch(escapes);
    expect(bright.out.replace(escapes, '')).toBe(plain.out);
  });

  test('a text can not send control characters to the terminal', async () => {
    const cwd = folderOf({ 'a.broom': 'broomline 1\nrunway Main { widht: "\u001B[2J\u202E" }\n' });
    const { out } = await broomline(['check', 'a.broom'], { cwd });
    expect(out).toContain('widht');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not come through
    expect(out).not.toMatch(/[\u0000-\u0009\u000B-\u001F\u202E]/);
  });

  test('a line of a megabyte is cut round the place', async () => {
    const cwd = folderOf({ 'a.broom': `broomline 1\nrunway Main { widht: 1 m } // ${'x'.repeat(1_000_000)}\n` });
    const { out } = await broomline(['check', 'a.broom'], { cwd });
    expect(Math.max(...out.split('\n').map(line => line.length))).toBeLessThanOrEqual(120);
  });
});

describe('json', () => {
  test('follows its schema, with ranges from 0 and the summary of the text', async () => {
    const cwd = folderOf({ 'a.broom': RUNWAY });
    const { status, out } = await broomline(['check', 'a.broom', '--format', 'json'], { cwd });
    const { findings, summary } = findingsDocument.parse(JSON.parse(out));
    expect(status).toBe(1);
    const [first] = findings.filter(finding => finding.code === 'out-of-range');
    expect(first).toMatchObject({
      severity: 'error',
      file: 'a.broom',
      range: { start: { line: 3, character: 9 }, end: { line: 3, character: 14 } },
      waived: null,
    });
    expect(summary.errors).toBe(findings.filter(finding => finding.severity === 'error').length);
    expect(summary.files).toBe(1);
  });

  test('a file with a byte order mark and Windows line ends has the same places', async () => {
    const cwd = folderOf({ 'a.broom': `\uFEFF${RUNWAY.replaceAll('\n', '\r\n')}` });
    const { out } = await broomline(['check', 'a.broom', '--format', 'json'], { cwd });
    const { findings } = findingsDocument.parse(JSON.parse(out));
    expect(findings.find(finding => finding.code === 'out-of-range')?.range.start).toEqual({ line: 3, character: 9 });
  });

  test('a finding in a library that two jobs share is said once', async () => {
    const cwd = folderOf({
      'lib.broom': 'broomline 1\nbroom B {\n  width: 2 mm\n  bristles: nylon\n}\n',
      'a.broom': 'broomline 1\nuse "lib.broom"\n',
      'b.broom': 'broomline 1\nuse "lib.broom"\n',
    });
    const { out } = await broomline(['check', '.', '--format', 'json'], { cwd });
    const { findings } = findingsDocument.parse(JSON.parse(out));
    expect(findings.filter(finding => finding.code === 'out-of-range')).toHaveLength(1);
  });
});
