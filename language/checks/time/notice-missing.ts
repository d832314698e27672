import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'notice-missing',
  title: 'Nobody is said to issue the notice for a closure',
  severity: 'warning',
  why: 'Only the management of the airport can close a part of it, and pilots learn of it by a notice to air missions. The specification says who issues it and how long ahead.',
  source: 'faa-notam-order',
  bad: ['    notice:    "issued by airport operations"\n', ''],
  *find({ job }) {
    if (job.isLibrary) return;
    for (const closure of job.blocks.closures) {
      if (closure.notice) continue;
      yield {
        message: `Nothing says who issues the notice to air missions for ${closure.name}. Add \`notice:\` with who issues it, and its reference once it is known.`,
        place: closure.heading,
        about: refOf(closure),
      };
    }
  },
});
