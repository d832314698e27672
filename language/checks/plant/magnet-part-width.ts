import { check } from '../check.ts';
import { allSteps, machinesOf, stepRef } from '../help.ts';

export default check({
  code: 'magnet-part-width',
  title: 'The magnet bar covers only part of the swept width',
  severity: 'warning',
  why: 'Between the passes of a magnet that is narrower than the sweeper, strips stay that no magnet went over. They are nowhere to be seen in the plan, because the passes are laid out by the swept width.',
  source: 'common-practice',
  bad: ['    magnet:        full width', '    magnet:        part width'],
  *find({ job }) {
    const seen = new Set<string>();
    for (const planned of allSteps(job, 'sweep', 'pick-up')) {
      const { plan, step } = planned;
      for (const sweeper of machinesOf(planned, 'sweeper')) {
        if (!step.magnet?.value || sweeper.magnet?.value !== 'part width' || seen.has(sweeper.id)) continue;
        seen.add(sweeper.id);
        yield {
          message: `The magnet bar of ${sweeper.name} is narrower than what it sweeps, so strips stay that no magnet went over. Use a bar of full width, or overlap the passes by what is missing.`,
          place: sweeper.magnet.place,
          about: stepRef(plan, step),
        };
      }
    }
  },
});
