import { check } from '../check.ts';
import { allSteps, broken, machinesOf, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'pressure-out-of-reach',
  title: 'The machine cannot work at the pressure of the step',
  severity: 'error',
  why: 'Pressure is what a water method is made of: below it the rubber stays, above it the pavement suffers. A unit that can not reach it, or can not be set so low, is the wrong unit.',
  source: 'mechanics',
  bad: { water: ['    pressure:       100 to 330 bar', '    pressure:       100 to 280 bar'] },
  *find(results) {
    for (const planned of allSteps(results.job, 'jet', 'rinse')) {
      const { plan, step } = planned;
      const machines = [
        ...machinesOf(planned, 'jet').map(jet => ({ name: jet.name, given: jet.pressure, range: jet.pressure?.value })),
        ...machinesOf(planned, 'water-truck').map(truck => ({
          name: truck.name,
          given: truck.pressure,
          range: truck.pressure && { least: 0, most: truck.pressure.value },
        })),
      ];
      for (const { name, given, range } of machines) {
        const out = step.pressure && range && broken(step.pressure.value, range);
        if (!out || !given) continue;
        const [asked, limit] = sayBoth(results, step.pressure.value, out.limit, 'pressure', step.pressure);
        yield {
          message: `${plan.work.name}.${step.name} works at ${asked}, but ${name} works ${out.side === 'above' ? 'up to' : 'from'} ${limit}. Change the pressure, or bind another unit.`,
          place: stepPlace(step, step.pressure),
          related: see(given, `The pressures of ${name}.`),
          about: stepRef(plan, step),
          fixes: setNumber(
            results,
            step.pressure,
            out.limit,
            'pressure',
            out.side === 'above' ? 'down' : 'up',
            'the pressure',
          ),
        };
      }
    }
  },
});
