import { check } from '../check.ts';
import { fullPlans, isChemical, refOf } from '../help.ts';

export default check({
  code: 'conditions-missing',
  title: 'Nothing says for which weather the job is planned',
  severity: 'warning',
  why: 'How long a film stays wet, whether the pavement counts as hot, and whether limits are kept follow from temperature, humidity and wind. Without them none of it can be judged before the night itself.',
  source: 'hover-evaporation',
  bad: [
    'conditions {\n    air:      12 °C\n    surface:  12 °C\n    humidity: 80 %\n    wind:     8 km/h\n    dry-for:  12 h\n}\n',
    '',
  ],
  *find({ job }) {
    if (job.blocks.conditions.length > 0) return;
    const plan = [...fullPlans(job)].find(isChemical);
    if (!plan) return;
    yield {
      message: `Nothing says for which weather ${plan.work.name} is planned, so film life and weather limits are not judged. Add \`conditions\` with air, humidity and wind, and the temperature of the pavement.`,
      place: plan.work.heading,
      about: refOf(plan.work),
    };
  },
});
