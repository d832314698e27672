import { pressureClass } from '../../formulas/jets.ts';
import { check } from '../check.ts';
import { allSteps, placeOf, say, stepRef } from '../help.ts';

export default check({
  code: 'pressure-class-by-edition',
  title: 'The class of the pressure depends on the edition',
  severity: 'hint',
  why: 'Ultra-high pressure begins above 25,000 psi in the classes as reprinted, above 30,000 psi in the editions of 2002 and 2012 (from memory). Between the two a class without its edition says nothing.',
  source: 'sspc-nace-2002-2012',
  bad: {
    water: [
      '        pressure:       300 bar\n        pressure-class: low pressure',
      '        pressure:       1900 bar\n        pressure-class: ultra-high pressure',
      '    pressure:       100 to 330 bar\n    pressure-class: low pressure',
      '    pressure:       1000 to 1900 bar',
      '    flow:           60 to 200 L/min\n    nozzles:        24\n    bore:           0.85 mm\n',
      '    flow:           60 to 200 L/min\n',
      '    pressure-limit: 340 bar',
      '    pressure-limit: 2000 bar',
    ],
  },
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'jet', 'rinse')) {
      const { pressure, pressureClass: said } = step;
      if (!pressure || !said) continue;
      const ultra = (['sspc-nace-water-jetting', 'sspc-nace-2002-2012'] as const).map(edition =>
        pressureClass(pressure.value, edition)?.name.startsWith('ultra'),
      );
      if (ultra[0] === ultra[1]) continue;
      yield {
        message: `${say(results, pressure.value, 'pressure', pressure)} is ultra-high pressure in one edition of the classes and high pressure in another. Say in a note which edition is meant; the number governs.`,
        place: placeOf(said),
        about: stepRef(plan, step),
      };
    }
  },
});
