import { check } from '../check.ts';
import { broken, percent, refOf } from '../help.ts';

export default check({
  code: 'crossfall-unusual',
  title: 'The crossfall is outside what runways are built to',
  severity: 'warning',
  why: 'Runways fall by 1 to 1.5 % from the crown to the edges, those for small aircraft by up to 2 %. Rinsing relies on that fall: with less the water stands, with more the product runs off before it has worked.',
  source: 'faa-150-5300-13b',
  bad: ['    crossfall: 1.5 %', '    crossfall: 0.4 %'],
  *find({ job }) {
    for (const runway of job.blocks.runways) {
      const { crossfall } = runway;
      const out = crossfall && broken(crossfall.value, { least: 0.01, most: 0.02 });
      if (!out) continue;
      const effect = out.side === 'below' ? 'rinse water will stand' : 'the product will run off before it has worked';
      yield {
        message: `A crossfall of ${percent(crossfall.value, 3)} is ${out.side} the 1 to 2 % that runways are built to, so ${effect}. Check the number; if it is right, say in the method how the water is moved.`,
        place: crossfall.place,
        about: refOf(runway),
      };
    }
  },
});
