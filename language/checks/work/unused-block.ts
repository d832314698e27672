import type { Job } from '../../job/job.ts';
import type { BlockHead } from '../../vocabulary/given.ts';
import { kinds } from '../../vocabulary/index.ts';
import { plantKinds } from '../../vocabulary/plant.ts';
import { check } from '../check.ts';
import { refOf, removeLines } from '../help.ts';

/** Kinds that only count when something names them. Deposits have a check of their own. */
const named = [
  'runways',
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
  *find(results) {
    const { job } = results;
    if (job.isLibrary || job.blocks.works.length === 0) return;
    const open = openKinds(job);
    for (const key of named) {
      for (const block of job.blocks[key] as readonly BlockHead[]) {
        if (block.fromLibrary || !job.unused.blocks.has(block.name) || open.has(block.kind)) continue;
        yield {
          message: `Nothing uses the ${block.kind} ${block.name}. Name it in a work, or take it out.`,
          place: block.heading,
          about: refOf(block),
          unused: true,
          fixes: removeLines(results, block.place, `Remove the ${block.kind} ${block.name}`),
        };
      }
    }
  },
});

/** Kinds of which a block may be named where something can't be read. */
function openKinds(job: Job): ReadonlySet<string> {
  const open = new Set<string>();
  const add = (kind: string): unknown => open.add(kind);
  // A block of an odd kind may name anything.
  if (job.doubts.length > 0) for (const kind of kinds.keys()) add(kind);
  for (const block of job.byId.values()) {
    for (const key of block.doubts ?? []) {
      const type = kinds.get(block.kind)?.properties[key]?.type;
      if (type?.is === 'names' || type?.is === 'call') type.kinds.forEach(add);
      else if (type?.is === 'machines') plantKinds.forEach(add);
      else if (type?.is === 'fromEnd') add('runway');
    }
  }
  for (const plan of job.plans) if (plan.doubts?.includes('bindings')) plantKinds.forEach(add);
  return open;
}
