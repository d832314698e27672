import type { Work } from '../../job/job.ts';
import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'works-wait-for-each-other',
  title: 'Works wait for each other',
  severity: 'error',
  why: 'A work named under `before` has to follow. If it has to come first as well, straight or by way of others, neither can begin.',
  source: 'tool-policy',
  bad: ['    closure:    Nights', '    closure:    Nights\n    before:     North'],
  *find({ job }) {
    const { works } = job.blocks;
    for (const work of works) {
      const path = roundTrip(work, works);
      if (!path || path.some(each => each.place.start < work.place.start)) continue;
      yield {
        message:
          path.length === 1
            ? `${work.name} has to come before itself. Name the works that follow it.`
            : `${[...path, work].map(each => each.name).join(' comes before ')}, so none can begin. Take one \`before\` out.`,
        place: work.before!.place,
        related: path.slice(1).map(each => ({ place: each.before!.place, message: each.name })),
        about: refOf(work),
      };
    }
  },
});

/** The works on the shortest way from a work through `before` back to it. */
function roundTrip(start: Work, works: readonly Work[]): readonly Work[] | undefined {
  const seen = new Set<string>();
  let paths: (readonly Work[])[] = [[start]];
  while (paths.length > 0) {
    const next: (readonly Work[])[] = [];
    for (const path of paths) {
      for (const ref of path.at(-1)!.before?.value ?? []) {
        if (ref.id === start.id) return path;
        const work = works.find(each => each.id === ref.id);
        if (!work || seen.has(work.id)) continue;
        seen.add(work.id);
        next.push([...path, work]);
      }
    }
    paths = next;
  }
  return undefined;
}
