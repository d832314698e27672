import { check } from '../check.ts';
import { fullPlans, isChemical, refOf } from '../help.ts';

export default check({
  code: 'hold-point-missing',
  title: 'Nobody has to release the first spraying',
  severity: 'hint',
  why: 'Before the first liquid of a night somebody looks at weather, calibration and drains, and says go. Without a hold point the crew sprays because it is time.',
  source: 'common-practice',
  bad: [
    'hold-point BeforeWater {\n    before:      "the first liquid of the night"\n    released-by: "engineer on site"\n    checks:      weather, calibration\n}\n',
    '',
  ],
  *find({ job }) {
    if (job.blocks.holdPoints.length > 0) return;
    const plan = [...fullPlans(job)].find(isChemical);
    if (!plan) return;
    yield {
      message: `${plan.work.name} begins to spray without anybody's release. Add a \`hold-point\` before it, with who releases it and what is looked at.`,
      place: plan.work.heading,
      about: refOf(plan.work),
    };
  },
});
