import { check } from '../check.ts';
import { above, closureLength, refOf, say } from '../help.ts';

export default check({
  code: 'closure-too-short',
  title: 'Set-up and hand-back take up the whole closure',
  severity: 'error',
  why: 'Work can begin when the set-up is over and has to be off the runway when the reserve for the hand-back begins. If the two together are as long as the closure, no time is left to work.',
  source: 'mechanics',
  bad: ['    hand-back: 45 min', '    hand-back: 6 h'],
  *find(results) {
    for (const closure of results.job.blocks.closures) {
      const length = closureLength(closure);
      if (length === undefined || !closure.handBack) continue;
      const lost = closure.handBack.value + (closure.setUp?.value ?? 0);
      if (above(length, lost)) continue;
      yield {
        message: `${closure.name} lasts ${say(results, length, 'time')}, but set-up and hand-back take ${say(results, lost, 'time')} of it, so no time is left to work. Shorten them, or ask for a longer closure.`,
        place: closure.handBack.place,
        about: refOf(closure),
      };
    }
  },
});
