import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'deposit-removed-twice',
  title: 'Two works remove the same deposit',
  severity: 'error',
  why: 'The area would be treated, counted and paid twice, and the product of the second work would find no rubber and run off. Works that share a deposit say which stretch each of them does.',
  source: 'tool-policy',
  bad: [
    'crew Night {',
    `work Again {
    removes:    NorthTouchdown
    method:     BroomAndRinse(soak: 40 min)
    product:    Detergent
    applicator: Boom
    scrubbers:  Broom1, Broom2
    water:      Tanker
    sweeper:    Sweeper1
    closure:    Nights
}

crew Night {`,
  ],
  alongside: ['stands-too-long', 'job-does-not-fit'],
  *find({ job }) {
    const taken = new Map<string, (typeof job.blocks.works)[number]>();
    for (const work of job.blocks.works) {
      for (const ref of work.removes?.value ?? []) {
        const before = taken.get(ref.id);
        taken.set(ref.id, before ?? work);
        // Works that are parts of one stretch each say which part they do.
        if (!before || [before, work].some(each => each.from || each.to)) continue;
        yield {
          message:
            before === work
              ? `${work.name} names ${ref.name} twice. Name it once.`
              : `${work.name} removes ${ref.name}, and so does ${before.name}. Let one of them remove it, or say with \`from\` and \`to\` which part each does.`,
          place: work.removes!.place,
          related: [{ place: before.removes!.place, message: 'It is removed here already.' }],
          about: refOf(work),
        };
      }
    }
  },
});
