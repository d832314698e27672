import { check } from '../check.ts';
import { allSteps, stepRef } from '../help.ts';

export default check({
  code: 'nowhere-to-wash',
  title: 'The plant is washed down, but nobody says where',
  severity: 'warning',
  why: 'Airport rules ask for a wash facility that drains to the foul sewer through a separator; anywhere else the storm drains are blocked and the water is taken away. A wash-down without a place ends in a ditch.',
  source: 'maryland-wash-rules',
  bad: ['    wash-pad Pad {\n        distance:  900 m\n        drains-to: "foul sewer, with consent"\n    }\n', ''],
  *find({ job }) {
    const pad = job.blocks.airports.some(airport => airport.washPads.length > 0);
    for (const { plan, step } of allSteps(job, 'wash-down')) {
      if (pad || step.at) continue;
      yield {
        message: `${plan.work.name}.${step.name} washes the plant, but there is no wash pad and no place is named. Add a \`wash-pad\` to the airport, or say \`at:\` where the water can be taken up.`,
        place: step.heading,
        about: stepRef(plan, step),
      };
    }
  },
});
