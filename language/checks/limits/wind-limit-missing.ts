import { check } from '../check.ts';
import { fullPlans, isChemical, refOf } from '../help.ts';

export default check({
  code: 'wind-limit-missing',
  title: 'No wind is named above which spraying stops',
  severity: 'warning',
  why: 'Wind carries spray onto grass, people and the other half of the runway. Where no label rules, 3 to 8 mph is the advice; state rules for field spraying exempt drenches as heavy as these, so the specification itself has to set the limit.',
  source: 'spray-drift-wind',
  bad: ['    wind:        <= 25 km/h\n', ''],
  *find({ job }) {
    if (job.blocks.weatherStops.some(stop => stop.wind)) return;
    const plan = [...fullPlans(job)].find(isChemical);
    if (!plan) return;
    const block = job.blocks.weatherStops[0] ?? plan.work;
    yield {
      message: `${plan.work.name} sprays a product, and nothing says in which wind it stops. Add a \`weather-stop\` with \`wind:\` and where it is measured.`,
      place: block.heading,
      about: refOf(block),
    };
  },
});
