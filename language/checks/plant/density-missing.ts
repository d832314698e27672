import { check } from '../check.ts';
import { allSteps, machinesOf, refOf } from '../help.ts';

export default check({
  code: 'density-missing',
  title: 'The nozzles were measured with water, and the density of the mix is not given',
  severity: 'hint',
  why: 'At the same pressure a heavier liquid flows less, by the root of its relative density: 10 % heavier is 5 % less. Without the density of the mix it is taken for water.',
  source: 'mechanics',
  bad: ['    density:           1010 kg/m3\n', ''],
  *find({ job }) {
    const seen = new Set<string>();
    for (const planned of allSteps(job, 'apply')) {
      const { product } = planned.plan;
      const measured = machinesOf(planned, 'sprayer').some(sprayer => sprayer.nozzlePoints);
      if (!product || product.density || !measured || seen.has(product.id)) continue;
      seen.add(product.id);
      yield {
        message: `The nozzle points hold for water, and the density of ${product.name} as sprayed is not given, so it is taken for water. Add \`density:\` from the data sheet.`,
        place: product.heading,
        about: refOf(product),
      };
    }
  },
});
