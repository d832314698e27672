import { check } from '../check.ts';
import { allMachines, counted, refOf, setNumber } from '../help.ts';

export default check({
  code: 'crew-too-small',
  title: 'The crew is smaller than one step needs',
  severity: 'warning',
  why: 'Each machine needs its people at the same time as the others of its step. A crew that is smaller can not run the convoy, and the step takes twice as long.',
  source: 'common-practice',
  bad: ['    people:      10', '    people:      2'],
  *find(results) {
    const { job } = results;
    for (const plan of job.plans) {
      const crew = job.blocks.crews.find(each => each.id === plan.work.crew?.value.id);
      if (!crew?.people) continue;
      const needs = plan.steps.map(planned => ({
        step: planned.step,
        people: allMachines(planned).reduce((sum, { machine, count }) => sum + count * (machine.crew?.value ?? 1), 0),
      }));
      const most = needs.reduce((a, b) => (b.people > a.people ? b : a), { step: undefined, people: 0 } as Need);
      if (!most.step || most.people <= crew.people.value) continue;
      yield {
        message: `${plan.work.name}.${most.step.name} takes ${counted(most.people, 'driver')} at a time, but ${crew.name} has ${counted(crew.people.value, 'person').replace('persons', 'people')}. Plan a larger crew, or fewer machines at a time.`,
        place: crew.people.place,
        related: [{ place: most.step.heading, message: 'The step that needs most.' }],
        about: refOf(plan.work),
        fixes: setNumber(results, crew.people, most.people, 'count', 'up', 'the crew'),
      };
    }
  },
});

interface Need {
  readonly step: { readonly name: string; readonly heading: { file: string; start: number; end: number } } | undefined;
  readonly people: number;
}
