import { check } from '../check.ts';
import { listed, refOf } from '../help.ts';

export default check({
  code: 'closure-of-another-runway',
  title: 'A work is done in a closure of another runway',
  severity: 'error',
  why: 'Only the runway that is closed can be worked on. A work whose closures do not close its runway would put machines on a runway in use.',
  source: 'faa-notam-order',
  safety: true,
  bad: [
    'closure Nights {\n    on:        Main',
    'runway Cross {\n    length:   1800 m\n    width:    45 m\n    pavement: asphalt\n    end "13" {\n    }\n    end "31" {\n    }\n}\n\nclosure Nights {\n    on:        Cross',
  ],
  alongside: ['closure-missing'],
  *find({ job }) {
    for (const { work, runway } of job.plans) {
      for (const ref of work.closure?.value ?? []) {
        const closure = job.blocks.closures.find(each => each.id === ref.id);
        if (!runway || !closure?.on || closure.on.value.some(each => each.id === runway.id)) continue;
        yield {
          message: `${work.name} works on runway ${runway.name}, but ${closure.name} closes ${listed(closure.on.value.map(each => each.name))}. Name a closure of ${runway.name}, or close it in this one too.`,
          place: work.closure!.place,
          related: [{ place: closure.on.place, message: 'What is closed.' }],
          about: refOf(work),
        };
      }
    }
  },
});
