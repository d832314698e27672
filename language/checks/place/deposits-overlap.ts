import { overlapArea, stationsFromDistances } from '../../formulas/geometry.ts';
import { check } from '../check.ts';
import { refOf, say, stationsOf } from '../help.ts';

export default check({
  code: 'deposits-overlap',
  title: 'Two deposits overlap',
  severity: 'warning',
  why: 'What lies under two deposits is treated and paid once, so the areas of the deposits do not add up to the area of the work. Where the two have different build-up, it is also open which rate holds there.',
  source: 'geometry',
  bad: [
    'deposit NorthTouchdown {',
    `deposit Crown {
    on:       Main from "04"
    stations: table chainage m, left m, right m
        400   3    3
        600   3    3
    build-up: very heavy
}

deposit NorthTouchdown {`,
    '    removes:    NorthTouchdown',
    '    removes:    NorthTouchdown, Crown',
  ],
  *find(results) {
    const { deposits } = results.job.blocks;
    for (const [i, deposit] of deposits.entries()) {
      for (const other of deposits.slice(0, i)) {
        const [on, same] = [deposit.on?.value, other.on?.value];
        if (!on || !same || on.runway.id !== same.runway.id || on.end !== same.end) continue;
        const [a, b] = [deposit, other].map(each => stationsFromDistances(stationsOf(each)));
        const area = overlapArea([a!], [b!]);
        if (!(area > 1e-6)) continue;
        yield {
          message: `${deposit.name} and ${other.name} share ${say(results, area, 'area')}. It is counted once, and it is open which build-up holds there. Let one end where the other begins.`,
          place: deposit.heading,
          related: [{ place: other.heading, message: 'The other deposit.' }],
          about: refOf(deposit),
        };
      }
    }
  },
});
