import { check } from '../check.ts';
import { above, say, see, stepPlace, stepRef, stepsOf } from '../help.ts';
import { exposuresOf, trackedWorks } from '../tracked.ts';

export default check({
  code: 'film-runs-off',
  title: 'The film is deeper than the texture holds',
  severity: 'warning',
  why: 'The texture of the pavement holds a film as deep as its mean texture depth at most. What is put on beyond that runs down the crossfall before it has worked, and where passes overlap it is twice as much.',
  source: 'geometry',
  bad: ['    texture:   1.2 mm', '    texture:   0.3 mm'],
  alongside: ['texture-worn', 'pre-wet-stands'],
  *find(results) {
    for (const { plan } of trackedWorks(results)) {
      const texture = plan.runway?.texture;
      const planned = stepsOf(plan, 'apply').at(-1);
      if (!texture || !planned) continue;
      const { step } = planned;
      const deepest = Math.max(
        ...exposuresOf(results, plan).flatMap(({ exposure }) => exposure.profile.map(strip => strip.depth[1] / 1000)),
      );
      if (!above(deepest, texture.value)) continue;
      yield {
        message: `${plan.work.name}.${step.name} lays a film of up to ${say(results, deepest, 'depth')}, where the texture of ${plan.runway!.name} holds ${say(results, texture.value, 'depth', texture)}. Put on less, or less overlap; coats help only as far as the first has soaked in.`,
        place: stepPlace(step, step.rate),
        related: see(texture, 'The mean texture depth.'),
        about: stepRef(plan, step),
      };
    }
  },
});
