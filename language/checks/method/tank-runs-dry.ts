import { baysForTank } from '../../mend/levers.ts';
import { check } from '../check.ts';
import { counted, stepRef, stepsOf, tried } from '../help.ts';
import { at, setBays, trackedWorks } from '../tracked.ts';

export default check({
  code: 'tank-runs-dry',
  title: 'The product runs out inside a pass',
  severity: 'warning',
  why: 'A sprayer that runs dry in the middle of a pass stops on the deposit, turns across wet product, and has to find the place again. A bay whose longest pass needs no more than a full tank avoids it.',
  source: 'common-practice',
  bad: [
    '    width:            8 m\n    tank:             4000 L',
    '    width:            8 m\n    tank:             150 L',
  ],
  alongside: ['water-out-of-reach'],
  *find(results) {
    for (const { plan, bays } of trackedWorks(results)) {
      for (const planned of stepsOf(plan, 'apply')) {
        const dry = bays.flatMap(bay =>
          bay.activities
            .filter(each => each.planned === planned)
            .flatMap(each =>
              each.machines.flatMap(machine => machine.run.ranOut.map(place => ({ place, bay, machine }))),
            ),
        );
        const [first] = dry;
        if (!first) continue;
        const more = tried(results, `bays for the tank of ${planned.step.id}`, [plan, bays.length], job =>
          baysForTank(job, plan, planned, bays.length),
        );
        yield {
          message: `The tank of ${first.machine.name} runs dry inside a pass of ${plan.work.name}.${planned.step.name}, first at ${at(results, first.place, first.bay)} (${counted(dry.length, 'time')} in all): one pass needs more than a full tank.${more ? ` With ${more.to} bays every pass ends on a full tank.` : ' Use shorter bays or a larger tank.'}`,
          place: planned.step.heading,
          about: stepRef(plan, planned.step),
          fixes: more ? setBays(results, plan, more.to, ': then no pass runs dry') : [],
        };
      }
    }
  },
});
