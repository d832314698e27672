import { savingsOf } from '../../mend/closures.ts';
import type { WhyNot } from '../../schedule/why.ts';
import { check, type Report, type Results } from '../check.ts';
import { counted, listed, refOf, say, tried } from '../help.ts';
import { savingFixes } from '../savings.ts';
import { linksTo, stepNameOf } from '../schedules.ts';

export default check({
  code: 'job-does-not-fit',
  title: 'The job does not fit into its closures',
  severity: 'error',
  why: 'What is started in a closure has to be rinsed, picked up and inspected in it, with the reserve before the end kept. Where that is proved impossible no crew can do it on the night either. The finding says which sum shows it; the fixes are the least changes that were scheduled with success.',
  source: 'mechanics',
  bad: ['    hours:     23:00 to 05:00, Mon to Thu', '    hours:     23:00 to 02:00, Mon to Thu'],
  *find(results) {
    const reports = results.review.why.flatMap(why => (isTold(results, why) ? [] : (reportOf(results, why) ?? [])));
    if (reports.length === 0) return;
    const { schedule } = results;
    const savings = tried(results, 'savings', [schedule], job => savingsOf(job, schedule));
    const fixes = savingFixes(results, savings);
    for (const report of reports) yield { ...report, fixes };
  },
});
/** A bay whose points stand too long by themselves is the finding of another check, which has cures of its own. */
function isTold({ schedule, exposures }: Results, why: WhyNot): boolean {
  if (why.kind !== 'contradiction' || !why.chain.some(each => each.why === 'longest residence')) return false;
  const task = schedule.built.tasks.find(each => each.id === why.chain[0]!.from);
  return exposures.some(({ tracks, exposure }) => {
    const most = tracks.limits.residence;
    return tracks === task?.tracks && most !== undefined && (exposure.residence?.greatest.seconds ?? 0) > most;
  });
}

function reportOf(results: Results, why: WhyNot): Report | undefined {
  const time = (seconds: number): string => say(results, seconds, 'time');
  switch (why.kind) {
    case 'contradiction': {
      const { plan } = results.schedule.built.tasks.find(each => each.id === why.chain[0]!.from)!;
      const links = why.chain.map(
        each =>
          `${stepNameOf(each.to)} ${each.side === 'least' ? 'at least' : 'at most'} ${time(each.seconds)} after ${stepNameOf(each.from)} (${each.why})`,
      );
      return {
        message: `${plan.work.name} can't be done as it stands, because its times contradict each other by ${time(why.excess)}: ${listed(links)}. Change one of them.`,
        place: plan.work.heading,
        related: linksTo(
          results,
          why.chain.map(each => ({ activity: each.to, message: `${each.why}: ${time(each.seconds)}` })),
        ),
        about: refOf(plan.work),
      };
    }
    case 'bay too long': {
      const { plan, bay } = why.bay;
      const parts = why.chain.map(each => `${stepNameOf(each.activity)} ${time(each.seconds)}`);
      const { closure } = why.night;
      return {
        message: `Bay ${bay.number} of ${plan.work.name} takes ${time(why.takes)} from its first movement to its inspection (${listed(parts)}), but the longest closure leaves ${time(why.has)} between set-up and hand-back. Make the bays shorter, the steps faster, or the closure longer.`,
        place: plan.work.heading,
        related: [
          ...linksTo(
            results,
            why.chain.map(each => ({ activity: each.activity, message: `${time(each.seconds)} of it` })),
          ),
          { place: (closure.hours ?? { place: closure.heading }).place, message: 'The hours of the closure.' },
        ],
        about: refOf(plan.work),
      };
    }
    case 'no night': {
      const { plan, bay } = why.bay;
      return {
        message: `No closure covers bay ${bay.number} of ${plan.work.name}, so it can never be done. Close that part of the runway, or leave the bay out.`,
        place: plan.work.heading,
        about: refOf(plan.work),
      };
    }
    case 'too few closures': {
      const closures = [...new Set(results.schedule.built.nights.map(night => night.closure))];
      const block = closures.find(each => each.number) ?? closures[0]!;
      return {
        message: `Every bay fits into a closure by itself, but all of them take ${counted(why.needs, 'closure')}${why.proved ? '' : ' or a few less'}, and there ${why.has === 1 ? 'is 1' : `are ${why.has}`} without the spare ones. Allow more closures, or shorten the work.`,
        place: (block.number ?? block.to ?? { place: block.heading }).place,
        about: refOf(block),
      };
    }
    case 'search': {
      const { plan } = results.schedule.built.tasks[0]!;
      const together =
        why.activities.length === 0
          ? 'Machines, times between the steps and closures together leave none, though no single one of them shows it.'
          : `${listed(why.activities)} can't all be done${why.holders.length > 0 ? ` with ${listed(why.holders)}` : ''} in the closures there are, while the times between them are kept.`;
      return {
        message: `It is proved that the job has no schedule. ${together} Shorten the bays, add a machine or a closure.`,
        related: linksTo(
          results,
          why.activities.map(activity => ({ activity, message: 'One of those that can not go together.' })),
        ),
        place: plan.work.heading,
        about: refOf(plan.work),
      };
    }
  }
}
