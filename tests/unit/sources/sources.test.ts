import { describe, expect, it, test } from 'vitest';
import { citation, findSource, marks, type SourceId, sources } from '../../../language/sources/sources.ts';

const all = Object.values(sources);

describe('the register of sources', () => {
  test.each(all.map(source => [source.id, source] as const))(
    '%s is cited with its mark, and never better',
    (id, source) => {
      expect(sources[id as SourceId]).toBe(source);
      expect(marks).toContain(source.mark);
      const line = citation(source);
      expect(line).not.toContain('\n');
      if (source.mark === 'from memory') {
        expect(line).toContain('from memory');
        expect(line).not.toContain('published');
      }
      if (source.mark === 'common practice, no source') expect(line).toMatch(/common practice, no source$/);
      else expect(line.startsWith(source.title)).toBe(true);
      if (source.mark === 'published, second hand') expect(line).toContain('second hand');
      if (source.year !== undefined) expect(line).toContain(String(source.year));
      if (source.clause !== undefined) expect(line).toContain(source.clause);
    },
  );

  it('lets a fact be verified better or worse than its document', () => {
    expect(citation('faa-12c-friction-levels')).toContain('from memory');
    const better = citation({ source: 'faa-12c-friction-levels', mark: 'published, second hand', clause: 'a row' });
    expect(better).toBe(
      'AC 150/5320-12C, a row (FAA, 1997): published, but read second hand (a reprint, a mirror or a quotation)',
    );
    expect(citation({ source: 'fao-56', mark: 'from memory' })).toMatch(/from memory, not checked/);
  });

  it('says common practice in so many words', () => {
    expect(citation('common-practice')).toBe('common practice, no source');
    expect(citation('tool-policy')).toBe('A choice made by this tool: common practice, no source');
  });

  it('finds ids that come from outside, and only its own', () => {
    expect(findSource('fao-56')).toBe(sources['fao-56']);
    expect(findSource('toString')).toBeUndefined();
    expect(findSource('constructor')).toBeUndefined();
    expect(findSource('nobody')).toBeUndefined();
  });

  it('has no two entries that read the same', () => {
    const lines = all.map(source => citation(source));
    const twice = lines.filter((line, i) => lines.indexOf(line) !== i);
    expect(twice).toEqual([]);
  });
});
