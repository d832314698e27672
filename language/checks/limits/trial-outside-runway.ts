import { check } from '../check.ts';
import { above, broken, chainageRange, endOf, refOf, runwayOf, say } from '../help.ts';

export default check({
  code: 'trial-outside-runway',
  title: 'The trial patch lies off the runway',
  severity: 'error',
  why: 'The patch is tried where it will be judged: on the pavement, in the deposit. Off the runway its chainage or its offsets are wrong.',
  source: 'geometry',
  bad: ['    chainage:    300 to 330 m', '    chainage:    3000 to 3030 m'],
  *find(results) {
    for (const trial of results.job.blocks.trials) {
      const runway = runwayOf(results.job, trial.on);
      const range = runway && chainageRange(runway, endOf(runway, trial.on?.value.end));
      if (!range || !runway.width) continue;
      const { least, most } = trial.chainage?.value ?? {};
      const s = [least, most].find(each => each !== undefined && broken(each, { least: range[0], most: range[1] }));
      const t = [trial.left, trial.right].find(each => each && above(each.value, runway.width!.value / 2));
      if (s === undefined && !t) continue;
      yield {
        message:
          s !== undefined
            ? `The trial patch ${trial.name} reaches to ${say(results, s, 'length')}, but the runway lies between ${say(results, range[0], 'length')} and ${say(results, range[1], 'length')} from this threshold. Correct the chainage.`
            : `The trial patch ${trial.name} reaches ${t!.text} from the centreline, but half the width of the runway is ${say(results, runway.width.value / 2, 'length', t!)}. Correct the offset.`,
        place: (s !== undefined ? trial.chainage! : t!).place,
        about: refOf(trial),
      };
    }
  },
});
