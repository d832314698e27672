import type { BlockHead } from '../../vocabulary/given.ts';
import { check } from '../check.ts';
import { refOf } from '../help.ts';

/** Kinds that only count when something names them. Deposits have a check of their own. */
const named = [
  'products',
  'sprayers',
  'brooms',
  'waterTrucks',
  'sweepers',
  'magnets',
  'jets',
  'methods',
  'crews',
] as const;

export default check({
  code: 'unused-block',
  title: 'Nothing in the job uses a block',
  severity: 'hint',
  why: 'A machine, product or method that no work uses changes nothing, but readers take it for part of the job. In a library it is there for others; in a job it is better left out.',
  source: 'tool-policy',
  bad: ['crew Night {', 'magnet Bar {\n    width: 2.4 m\n}\n\ncrew Night {'],
  *find({ job, textOf }) {
    if (job.isLibrary || job.blocks.works.length === 0) return;
    const words = countWords(textOf(job.file));
    for (const key of named) {
      for (const block of job.blocks[key] as readonly BlockHead[]) {
        // Whatever refers to a block has to write its name: once is its own heading.
        if (block.fromLibrary || block.name === '' || (words.get(block.name) ?? 0) > 1) continue;
        yield {
          message: `Nothing uses the ${block.kind} ${block.name}. Name it in a work, or take it out.`,
          place: block.heading,
          about: refOf(block),
          unused: true,
        };
      }
    }
  },
});

/** How often each word stands in a text, comments left out. Quotes count: a fleet's table writes its machines so. */
function countWords(text: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, ' ');
  for (const [word] of code.matchAll(/[A-Za-zÀ-ɏ_][0-9A-Za-zÀ-ɏ_]*(?:-[0-9A-Za-zÀ-ɏ_]+)*/g)) {
    counts.set(word, (counts.get(word) ?? 0) + 1);
  }
  return counts;
}
