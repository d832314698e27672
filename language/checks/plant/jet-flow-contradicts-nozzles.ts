import { nozzleFlow } from '../../formulas/jets.ts';
import { check } from '../check.ts';
import { above, allSteps, machinesOf, refOf, say } from '../help.ts';

export default check({
  code: 'jet-flow-contradicts-nozzles',
  title: 'The pump cannot feed the nozzles at the pressure of the step',
  severity: 'warning',
  why: 'What the nozzles pass follows from their bore and the pressure. If that is more than the pump delivers, the pressure falls until the two agree, and the rubber stays; the display at the pump does not show it.',
  source: 'mechanics',
  bad: { water: ['    bore:           0.85 mm', '    bore:           1.2 mm'] },
  *find(results) {
    for (const planned of allSteps(results.job, 'jet')) {
      const { step } = planned;
      for (const jet of machinesOf(planned, 'jet')) {
        const { nozzles, bore, discharge, flow } = jet;
        if (!nozzles || !bore || !discharge || !step.pressure || flow?.value.most === undefined) continue;
        const passed = nozzles.value * nozzleFlow(bore.value, step.pressure.value, discharge.value);
        if (!above(passed, flow.value.most)) continue;
        yield {
          message: `At ${say(results, step.pressure.value, 'pressure', step.pressure)} the ${nozzles.value} nozzles of ${jet.name} pass ${say(results, passed, 'flow')}, but its pump delivers at most ${say(results, flow.value.most, 'flow')}, so the pressure will not be reached. Use fewer or smaller nozzles, or a stronger pump.`,
          place: bore.place,
          about: refOf(jet),
        };
      }
    }
  },
});
