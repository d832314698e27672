import { check } from '../check.ts';
import { above, refOf, say } from '../help.ts';

export default check({
  code: 'holding-too-small',
  title: 'The water to recover does not fit into what can be held',
  severity: 'warning',
  why: 'When the holding tanks are full the rinse has to stop with the product still on the runway. What has to be recovered is counted from what is put on, without what evaporates or stays in the texture, so it is an upper bound.',
  source: 'mechanics',
  bad: ['    spill-kit: yes', '    spill-kit: yes\n    holding:   10 m3'],
  good: ['    spill-kit: yes', '    spill-kit: yes\n    holding:   200 m3'],
  *find(results) {
    for (const block of results.job.blocks.environments) {
      if (!block.holding) continue;
      for (const { work } of results.job.plans) {
        const volume = results.quantities.get(`${work.name}.toRecover`)?.value;
        if (volume === undefined || !above(volume, block.holding.value)) continue;
        yield {
          message: `${work.name} leaves up to ${say(results, volume, 'volume')} to recover, but only ${say(results, block.holding.value, 'volume', block.holding)} can be held on site. Plan for tankers that empty it meanwhile, or for more tanks.`,
          place: block.holding.place,
          related: [{ place: work.heading, message: 'The work.' }],
          about: refOf(block),
        };
      }
    }
  },
});
