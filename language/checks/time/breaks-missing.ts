import { check } from '../check.ts';
import { above, refOf } from '../help.ts';

export default check({
  code: 'breaks-missing',
  title: 'A long shift has no break',
  severity: 'hint',
  why: 'Drivers at night, in protective clothing, make mistakes when they are tired. Shift length, breaks and relief have to be stated, and the plan has to leave room for them; local law on working time governs.',
  source: 'common-practice',
  bad: ['    break-after: 4 h\n    break-of:    30 min\n', ''],
  *find({ job }) {
    for (const crew of job.blocks.crews) {
      if (!crew.shift || !above(crew.shift.value, 6 * 3600) || (crew.breakAfter && crew.breakOf)) continue;
      yield {
        message: `${crew.name} has a shift of ${crew.shift.text} and no break. Add \`break-after:\` and \`break-of:\` by the working-time rules that hold there.`,
        place: crew.shift.place,
        about: refOf(crew),
      };
    }
  },
});
