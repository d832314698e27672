import { baysForStand, speedForStand } from '../../mend/levers.ts';
import { check } from '../check.ts';
import { above, refOf, say, sayBoth, see, stepsOf, tried, write } from '../help.ts';
import { at, exposuresOf, setBays, setStep, speedGrid, standLimit, time, trackedWorks } from '../tracked.ts';

export default check({
  code: 'stands-too-long',
  title: 'Product stands longer than its limit at some point',
  severity: 'error',
  why: 'From the first product to the last rinse is the time the product works on pavement, sealant and paint. It is longest where the rinse comes last, and the limit has to hold there. A bay that takes too long has to be shorter, or its machines faster.',
  source: 'geometry',
  bad: ['        at-most:  4 h', '        at-most:  2 h'],
  *find(results) {
    for (const { plan, bays, by, problems } of trackedWorks(results)) {
      const limit = standLimit(plan);
      // Without any bay that keeps it, no-bay-fits speaks of it.
      // Limits that contradict each other are findings of their own.
      const soak = Math.max(...bays.map(bay => bay.limits.soak ?? 0), plan.product?.dwellLeast?.value ?? 0);
      if (!limit || soak > limit.seconds || problems.some(each => each.kind === 'no bay fits')) continue;
      const over = exposuresOf(results, plan).filter(
        each => each.exposure.residence && above(each.exposure.residence.greatest.seconds, limit.seconds),
      );
      const worst = over.toSorted(
        (a, b) => b.exposure.residence!.greatest.seconds - a.exposure.residence!.greatest.seconds,
      )[0];
      if (!worst) continue;
      const { greatest } = worst.exposure.residence!;
      const [stands, most] = sayBoth(results, greatest.seconds, limit.seconds, 'time', limit.given);
      const others = over.length > 1 ? `, and ${over.length - 1} more of its ${bays.length} bays too` : '';
      const said = plan.work.bays?.value;
      const equal = by !== 'count' ? 0 : said?.by === 'count' ? said.count : 1;
      const more =
        by === 'auto'
          ? undefined
          : tried(results, `bays for the stand of ${plan.work.id}`, [plan, equal], job =>
              baysForStand(job, plan, equal),
            );
      const fixes = more ? [...setBays(results, plan, more.to, `: then ${time(results, more.after)}`)] : [];
      const cures = more ? [`${more.to} bays in place of ${bays.length}, then ${time(results, more.after)}`] : [];
      for (const planned of stepsOf(plan, 'agitate', 'rinse')) {
        const { step } = planned;
        const grid = speedGrid(results, step.speed);
        const faster = tried(results, `speed for the stand of ${step.id}`, [plan, limit.seconds, grid], job =>
          speedForStand(job, plan, planned, limit.seconds, grid),
        );
        const written = faster && write(faster.to, step.speed!.unit, 'up');
        if (!faster || written === undefined) continue;
        cures.push(
          `${step.name} at ${say(results, faster.to, 'speed', step.speed)}, then ${time(results, faster.after)}`,
        );
        const title = `Let ${step.name} go at ${written}: then ${time(results, faster.after)}`;
        fixes.push(...setStep(results, plan, step, step.speed, 'speed', written, title));
      }
      const advice =
        cures.length > 0
          ? `Any of these cures it: ${cures.join('; ')}.`
          : 'Neither shorter bays nor faster machines alone cure it: use fewer cycles, more brooms in the next lane, or a product that may stand longer.';
      yield {
        message: `In ${plan.work.name} product stands for ${stands} at ${at(results, greatest, worst.tracks)}, from the first product to the last rinse, but ${most} is the limit${others}. ${advice}`,
        place: plan.work.bays && plan.work.bays.origin.by !== 'default' ? plan.work.bays.place : plan.work.heading,
        related: see(limit.given, 'The limit.'),
        about: refOf(plan.work),
        fixes,
      };
    }
  },
});
