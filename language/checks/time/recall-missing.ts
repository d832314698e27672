import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'recall-missing',
  title: 'Nothing says how fast the runway can be called back',
  severity: 'warning',
  safety: true,
  why: 'If an aircraft has to land, operations must know how long it takes until the runway is clear: to stop, rinse what is wet, pick up, inspect and leave. Without a limit nobody can tell when spraying may still begin.',
  source: 'common-practice',
  bad: ['    recall:    3 h\n', ''],
  *find({ job }) {
    if (job.isLibrary) return;
    for (const closure of job.blocks.closures) {
      if (closure.recall) continue;
      yield {
        message: `Nothing says within which time the runway has to be clear if it is called back during ${closure.name}. Agree it with operations and add \`recall:\`.`,
        place: closure.heading,
        about: refOf(closure),
      };
    }
  },
});
