import { check } from '../check.ts';
import { addBlock, below, sayBoth, see, stepRef, stepsOf, write } from '../help.ts';
import { at, exposuresOf, firstStep, time, trackedWorks } from '../tracked.ts';

export default check({
  code: 'soak-short',
  title: 'A tool comes to some point before the product has soaked',
  severity: 'error',
  why: 'The soak counts at each point, from the moment it has its full rate to the first broom or jet there. Brooms that start too early, or gain on the sprayer, find product that has not worked yet. What they move then has to be put on again.',
  source: 'geometry',
  bad: ['    step Soak {\n        does:     soak\n        at-least: soak\n        at-most:  4 h\n    }\n', ''],
  alongside: ['soak-missing', 'unused-parameter'],
  *find(results) {
    for (const { plan } of trackedWorks(results)) {
      const tool = firstStep(plan, 'agitate', 'jet');
      const apply = firstStep(plan, 'apply');
      const soak = stepsOf(plan, 'soak')[0]?.step;
      // Steps in the wrong order are steps-out-of-order's finding.
      const order = [apply, ...stepsOf(plan, 'soak'), tool].map(each => each && plan.steps.indexOf(each));
      if (!tool || !apply || order.some((place, i) => i > 0 && place! < order[i - 1]!)) continue;
      for (const { tracks, exposure } of exposuresOf(results, plan)) {
        // A soak that the method sets below the product's own is soak-under-minimum's.
        const limit = soak ? tracks.limits.soak : plan.product?.dwellLeast?.value;
        const least = exposure.soak?.least;
        if (limit === undefined || !least || !below(least.seconds, limit - 1e-6)) continue;
        const given = soak?.atLeast ?? plan.product?.dwellLeast;
        const [soaks, wanted] = sayBoth(results, Math.max(0, least.seconds), limit, 'time', given);
        const early =
          least.seconds < 0
            ? `comes ${time(results, -least.seconds)} before the product`
            : `comes when the product has soaked for ${soaks}`;
        const written = write(limit, given?.unit ?? 'min', 'up');
        yield {
          message: `At ${at(results, least, tracks)} ${plan.work.name}.${tool.step.name} ${early}, but ${wanted} is the least. Let it start ${time(results, limit - least.seconds)} later${soak ? '' : `: add a soak of ${wanted} after ${apply.step.name}`}.`,
          place: tool.step.heading,
          related: given ? see(given, 'The least soak.') : [],
          about: stepRef(plan, tool.step),
          fixes:
            soak || written === undefined
              ? []
              : addBlock(
                  results,
                  apply.step,
                  'after',
                  `step Soak {\n    does:     soak\n    at-least: ${written}\n}`,
                  `Add a soak of ${written} after ${apply.step.name}`,
                ),
        };
        break;
      }
    }
  },
});
