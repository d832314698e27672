import { check } from '../check.ts';
import { above, dries, fullPlans, isDone, minutes, say, stepPlace, stepRef, stepsOf } from '../help.ts';

export default check({
  code: 'keep-wet-too-rare',
  title: 'The film is dry before it is wetted again',
  severity: 'warning',
  why: 'A keep-wet step only helps if it comes before the film is dry. How long that takes is estimated for water, within about 40 %.',
  source: 'menzel-si',
  bad: [
    '    air:      12 °C\n    surface:  12 °C\n    humidity: 80 %',
    '    air:      24 °C\n    surface:  26 °C\n    humidity: 30 %',
    '    step Soak {',
    `    step KeepWet {
        does:  keep-wet
        by:    water
        speed: 8 km/h
        rate:  0.3 L/m2
        every: 40 min
    }
    step Soak {`,
  ],
  good: [
    '    air:      12 °C\n    surface:  12 °C\n    humidity: 80 %',
    '    air:      24 °C\n    surface:  26 °C\n    humidity: 30 %',
    '    step Soak {',
    `    step KeepWet {
        does:  keep-wet
        by:    water
        speed: 8 km/h
        rate:  0.3 L/m2
        every: 15 min
    }
    step Soak {`,
  ],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      for (const { step } of stepsOf(plan, 'keep-wet')) {
        const film = dries(results, plan)[0];
        if (!film || !step.every || !isDone(results.job, step) || !above(step.every.value, film.life)) continue;
        yield {
          message: `${plan.work.name}.${step.name} comes every ${say(results, step.every.value, 'time', step.every)}, but the film is dry after about ${minutes(film.life)} (± 40 %). Wet it at least every ${minutes(film.life / 1.4)} to be safe.`,
          place: stepPlace(step, step.every),
          about: stepRef(plan, step),
        };
      }
    }
  },
});
