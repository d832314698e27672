import { check } from '../check.ts';
import { allSteps, machinesOf, refOf } from '../help.ts';

export default check({
  code: 'no-spare-broom',
  title: 'There is no broom in reserve',
  severity: 'hint',
  why: 'When the only broom fails while the product stands, the crew can only rinse and give the bay up. A broom or a core in reserve on site costs little beside a lost night.',
  source: 'common-practice',
  bad: ['    spares:    broom, nozzles', '    spares:    nozzles'],
  *find({ job }) {
    if (job.isLibrary) return;
    const spare = job.blocks.fleets.some(fleet => fleet.spares?.value.includes('broom') || fleet.standby);
    const first = spare ? undefined : [...allSteps(job, 'agitate')].find(each => machinesOf(each, 'broom').length > 0);
    if (!first) return;
    const fleet = job.blocks.fleets[0];
    yield {
      message: `${first.plan.work.name} works with brooms, and none is in reserve: if one fails while the product stands, the bay is lost. Name \`broom\` under \`spares\` of the fleet.`,
      place: fleet?.spares?.place ?? first.plan.work.heading,
      about: refOf(first.plan.work),
    };
  },
});
