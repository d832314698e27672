import { check } from '../check.ts';
import { addLine, allSteps, machinesOf, refOf, replaceValue, stepRef } from '../help.ts';

export default check({
  code: 'magnet-absent',
  title: 'A step works with the magnet, but its machine has none',
  severity: 'error',
  why: 'A wire that a broom sheds can be drawn into an engine. A magnet pass that is written down but can not be made is worse than none, because the inspection relies on it.',
  source: 'acrp-synthesis-26',
  bad: ['    magnet:        full width\n', ''],
  *find(results) {
    for (const planned of allSteps(results.job, 'sweep', 'pick-up')) {
      const { plan, step } = planned;
      const sweepers = machinesOf(planned, 'sweeper');
      const bare = sweepers.find(sweeper => (sweeper.magnet?.value ?? 'none') === 'none');
      const has = machinesOf(planned, 'magnet').length > 0 || sweepers.some(each => each !== bare && each.magnet);
      if (!step.magnet?.value || !bare || has) continue;
      yield {
        message: `${plan.work.name}.${step.name} works with the magnet down, but ${bare.name} has no magnet bar. Bind a machine that has one, or add a towed magnet.`,
        place: step.magnet.place,
        related: [{ place: bare.heading, message: 'The machine without a magnet.' }],
        about: stepRef(plan, step),
        fixes:
          bare.magnet?.origin.by === 'own line'
            ? replaceValue(results, bare.magnet, 'full width', `Give ${refOf(bare).name} a magnet bar of full width`)
            : addLine(results, bare, 'magnet: full width', `Give ${refOf(bare).name} a magnet bar of full width`),
      };
    }
  },
});
