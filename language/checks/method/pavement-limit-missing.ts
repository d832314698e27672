import { check } from '../check.ts';
import { allSteps, refOf } from '../help.ts';

export default check({
  code: 'pavement-limit-missing',
  title: 'Nothing says which water pressure the pavement can bear',
  severity: 'warning',
  why: 'Guidance gives no pressure: it tells the airport to rely on experience and on a trial area. Somebody who knows the pavement has to set the limit, or the contractor will set it by trying.',
  source: 'trade-magazine-2005',
  bad: { water: ['    pressure-limit: 340 bar\n', ''] },
  *find({ job }) {
    const seen = new Set<string>();
    for (const { plan } of allSteps(job, 'jet')) {
      const { runway } = plan;
      if (!runway || runway.pressureLimit || seen.has(runway.id)) continue;
      seen.add(runway.id);
      yield {
        message: `${plan.work.name} works with jets, and nothing says which pressure runway ${runway.name} can bear. Add \`pressure-limit:\`, from the pavement engineer or the trial.`,
        place: runway.heading,
        about: refOf(runway),
      };
    }
  },
});
