import { check } from '../check.ts';
import { addLine, allMachines, drivingSteps, fullPlans, machinesOf, stepRef } from '../help.ts';

export default check({
  code: 'magnet-missing',
  title: 'Metal bristles are used, and no magnet goes over the ground after them',
  severity: 'error',
  safety: true,
  why: 'Metal bristles break and shed wire (from memory); a wire in a tyre or an engine can bring an aircraft down. More than half of the airports surveyed use magnetic bars. Wherever metal bristles work, a magnet pass follows the last brooming.',
  source: 'acrp-synthesis-26',
  bad: [
    '    rotation:      300 rpm\n    bristles:      polypropylene',
    '    rotation:      300 rpm\n    bristles:      steel',
    '        speed:  6 km/h\n        magnet: yes',
    '        speed:  6 km/h',
  ],
  good: [
    '    rotation:      300 rpm\n    bristles:      polypropylene',
    '    rotation:      300 rpm\n    bristles:      steel',
  ],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const driving = drivingSteps(plan);
      const last = driving.findLastIndex(planned =>
        [...machinesOf(planned, 'broom'), ...machinesOf(planned, 'sweeper')].some(isMetal),
      );
      if (last < 0) continue;
      const covered = driving
        .slice(last)
        .some(planned => planned.step.magnet?.value || machinesOf(planned, 'magnet').length > 0);
      if (covered) continue;
      const step = driving[last]!.step;
      const machine = allMachines(driving[last]!).find(each =>
        isMetal(each.machine as { bristles?: { value: string } }),
      )!.machine;
      const pickUp = driving.slice(last).find(planned => planned.step.does?.value === 'pick-up');
      yield {
        message: `${machine.name} in ${plan.work.name}.${step.name} has metal bristles, which shed wire, and no magnet goes over the ground after it. Add a magnet pass after the last brooming, or use bristles without metal.`,
        place: pickUp?.step.heading ?? step.heading,
        related: [{ place: machine.heading, message: 'The machine with metal bristles.' }],
        about: stepRef(plan, step),
        fixes:
          pickUp && !pickUp.step.magnet?.value
            ? addLine(
                results,
                plan.method.steps.find(each => each.name === pickUp.step.name),
                'magnet: yes',
                'Put the magnet down for the pick-up',
              )
            : [],
      };
    }
  },
});

function isMetal(machine: { readonly bristles?: { readonly value: string } | undefined }): boolean {
  return machine.bristles?.value === 'steel' || machine.bristles?.value === 'mixed';
}
