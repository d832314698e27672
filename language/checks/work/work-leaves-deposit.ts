import { check } from '../check.ts';
import { above, below, refOf, say } from '../help.ts';

export default check({
  code: 'work-leaves-deposit',
  title: 'The stretch of a work leaves a part of its deposits out',
  severity: 'warning',
  why: 'With `from` and `to` a work does only a stretch. What lies beyond is in the job as a deposit but in no work, so it stays on the runway unless another work takes it.',
  source: 'tool-policy',
  bad: ['    closure:    Nights', '    closure:    Nights\n    to:         600 m'],
  *find(results) {
    const { job } = results;
    for (const { work, deposits } of job.plans) {
      if (!work.from && !work.to) continue;
      for (const deposit of deposits) {
        const stations = deposit.stations?.value.map(row => row.chainage) ?? [];
        const [start, end] = [Math.min(...stations), Math.max(...stations)];
        const early = work.from && below(start, work.from.value) ? [start, work.from.value] : undefined;
        const late = work.to && above(end, work.to.value) ? [work.to.value, end] : undefined;
        const left = [early, late].find(part => part !== undefined && !isDoneElsewhere(deposit.id, part));
        if (!left || stations.length === 0) continue;
        yield {
          message: `${work.name} leaves ${deposit.name} between ${say(results, left[0]!, 'length')} and ${say(results, left[1]!, 'length')}. Widen the stretch, or give the rest to another work.`,
          place: (left === early ? work.from : work.to)!.place,
          related: [{ place: deposit.heading, message: 'The deposit.' }],
          about: refOf(work),
        };
      }

      function isDoneElsewhere(id: string, part: readonly number[]): boolean {
        return job.plans.some(
          other =>
            other.work !== work &&
            other.deposits.some(each => each.id === id) &&
            !above(other.work.from?.value ?? Number.NEGATIVE_INFINITY, part[0]!) &&
            !below(other.work.to?.value ?? Number.POSITIVE_INFINITY, part[1]!),
        );
      }
    }
  },
});
