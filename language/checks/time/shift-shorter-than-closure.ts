import { check } from '../check.ts';
import { below, closureLength, refOf, sayBoth } from '../help.ts';

export default check({
  code: 'shift-shorter-than-closure',
  title: 'The shift of the crew is shorter than the closure',
  severity: 'warning',
  why: 'The crew comes before the closure and leaves after it. If the shift ends earlier, either a relief takes over, or tired people hand the runway back. No published limit for airside maintenance crews was found, so the specification has to say.',
  source: 'common-practice',
  bad: ['    shift:       8 h', '    shift:       5 h'],
  *find(results) {
    const { job } = results;
    for (const { work } of job.plans) {
      const crew = job.blocks.crews.find(each => each.id === work.crew?.value.id);
      if (!crew?.shift) continue;
      const closures = job.blocks.closures.filter(
        each => !work.closure || work.closure.value.some(ref => ref.id === each.id),
      );
      const long = closures.find(each => below(crew.shift!.value, closureLength(each) ?? 0));
      if (!long) continue;
      const [shift, length] = sayBoth(results, crew.shift.value, closureLength(long)!, 'time', crew.shift);
      yield {
        message: `${crew.name} works ${shift} at most, but ${long.name} lasts ${length}. Plan a relief, or end the work earlier.`,
        place: crew.shift.place,
        related: [{ place: long.hours?.place ?? long.heading, message: 'The closure.' }],
        about: refOf(crew),
      };
    }
  },
});
