import { pressureClass } from '../../formulas/jets.ts';
import type { Job } from '../../job/job.ts';
import type { BlockRef, Given } from '../../vocabulary/given.ts';
import { check } from '../check.ts';
import { allSteps, placeOf, refOf, replaceValue, say, see, stepRef } from '../help.ts';

type Class = 'low pressure' | 'high pressure' | 'ultra-high pressure';

export default check({
  code: 'pressure-class-contradicts',
  title: 'The class of the water pressure contradicts its number',
  severity: 'error',
  safety: true,
  why: 'Low pressure means less than 5,000 psi (34 MPa), ultra-high more than 25,000 psi (170 MPa) in the classes as reprinted, or more than 30,000 psi in other editions. People choose protective equipment and exclusion zones by the word; a training page that called 20,000 psi low shows what comes of it.',
  source: 'sspc-nace-water-jetting',
  bad: { water: ['        pressure-class: low pressure', '        pressure-class: ultra-high pressure'] },
  *find(results) {
    for (const { number, value, said, about } of pressures(results.job)) {
      const fitting = classesOf(value);
      if (fitting.length === 0 || fitting.includes(said.value)) continue;
      const edition = fitting.length > 1 ? ', depending on the edition of the classes' : '';
      yield {
        message: `${say(results, value, 'pressure', number)} is ${fitting.join(' or ')}${edition}, but it is called ${said.value}. Correct the number, or call it what it is: people protect themselves by the word.`,
        place: placeOf(said),
        related: see(number, 'The pressure.'),
        about,
        fixes: fitting.flatMap(word => replaceValue(results, said, word, `Call it \`${word}\``)),
      };
    }
  },
});

interface Classed {
  readonly number: Given<unknown>;
  readonly value: number;
  readonly said: Given<Class>;
  readonly about: BlockRef;
}

function* pressures(job: Job): Generator<Classed> {
  for (const { plan, step } of allSteps(job, 'jet', 'rinse')) {
    if (step.pressure && step.pressureClass) {
      yield { number: step.pressure, value: step.pressure.value, said: step.pressureClass, about: stepRef(plan, step) };
    }
  }
  for (const jet of job.blocks.jets) {
    const most = jet.pressure?.value.most ?? jet.pressure?.value.least;
    if (jet.pressure && most !== undefined && jet.pressureClass) {
      yield { number: jet.pressure, value: most, said: jet.pressureClass, about: refOf(jet) };
    }
  }
}

/** The words that fit a pressure in one edition or the other: between 25,000 and 30,000 psi there are two. */
function classesOf(pressure: number): readonly Class[] {
  const words = (['sspc-nace-water-jetting', 'sspc-nace-2002-2012'] as const).map(edition => {
    const name = pressureClass(pressure, edition)?.name;
    if (name === undefined) return undefined;
    return name.startsWith('low') ? 'low pressure' : name.startsWith('ultra') ? 'ultra-high pressure' : 'high pressure';
  });
  return [...new Set(words.filter(word => word !== undefined))];
}
