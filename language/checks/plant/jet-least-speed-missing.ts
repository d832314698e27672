import { check } from '../check.ts';
import { addLine, allSteps, machinesOf, refOf } from '../help.ts';

export default check({
  code: 'jet-least-speed-missing',
  title: 'Nothing says how slowly the jet may move',
  severity: 'warning',
  why: 'Specifications ask for close control of the pressure and of the time that the jet stays on a spot, because a jet that crawls harms the surface. The least speed is what a crew can hold to.',
  source: 'federal-solicitation',
  bad: { water: ['    least-speed:    0.5 km/h\n', ''] },
  *find(results) {
    const seen = new Set<string>();
    for (const planned of allSteps(results.job, 'jet')) {
      for (const jet of machinesOf(planned, 'jet')) {
        if (jet.leastSpeed || seen.has(jet.id)) continue;
        seen.add(jet.id);
        yield {
          message: `Nothing says below which speed the jet of ${jet.name} has to be shut off, and a jet that crawls harms the surface. Add \`least-speed:\` from the trial or the maker.`,
          place: jet.heading,
          about: refOf(jet),
          fixes:
            jet.workingSpeed?.value.least === undefined
              ? []
              : addLine(results, jet, `least-speed: ${lowest(jet.workingSpeed.text)}`, 'Take the lowest working speed'),
        };
      }
    }
  },
});

/** `0.5 to 5 km/h` → `0.5 km/h`. */
function lowest(range: string): string {
  const [, number = '', unit = ''] = /([0-9.]+)\s*(?:to\s*[0-9.]+)?\s*([^0-9]+)$/.exec(range) ?? [];
  return `${number} ${unit.trim()}`;
}
