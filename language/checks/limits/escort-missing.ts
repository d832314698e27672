import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'escort-missing',
  title: 'Nothing says how vehicles are controlled on the movement area',
  severity: 'warning',
  why: 'Access to movement and safety areas is limited to those who are needed, and where a tower is open each person and vehicle is under two-way radio, escort, or approved signals. The specification says which.',
  source: '14-cfr-139-329',
  bad: [
    '    radio:       "escort on the ground channel"\n',
    '',
    '    escort:         "airside escort with radio"\n',
    '',
  ],
  *find({ job }) {
    const said = [...job.blocks.safeties.map(each => each.escort), ...job.blocks.airports.map(each => each.radio)];
    const [plan] = fullPlans(job);
    if (!plan || said.some(text => text?.value.trim())) return;
    const block = job.blocks.safeties[0] ?? plan.work;
    yield {
      message: `Nothing says how the vehicles of ${plan.work.name} are controlled on the movement area. Add \`escort:\` to a \`safety\` block, or \`radio:\` to the airport.`,
      place: block.heading,
      about: refOf(block),
    };
  },
});
