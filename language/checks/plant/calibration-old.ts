import { check } from '../check.ts';
import { allSteps, daysBetween, machinesOf, refOf, today } from '../help.ts';

export default check({
  code: 'calibration-old',
  title: 'The calibration of the applicator is more than a year old',
  severity: 'warning',
  why: 'Nozzles wear and pumps lose pressure, so a calibration holds for a season, not for ever. A year is the usual limit; after a change of nozzle or product it is due at once.',
  source: 'common-practice',
  bad: ['    calibrated:       2031-02-10', '    calibrated:       2029-02-10'],
  *find(results) {
    const date = today(results);
    const seen = new Set<string>();
    for (const planned of allSteps(results.job, 'apply')) {
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        const { calibrated } = sprayer;
        const days = calibrated && date && daysBetween(calibrated.value, date);
        if (days === undefined || days === '' || seen.has(sprayer.id)) continue;
        seen.add(sprayer.id);
        if (days >= 0 && days <= 366) continue;
        yield {
          message:
            days < 0
              ? `The calibration of ${sprayer.name} on ${calibrated!.value} lies after ${date}, the date of the job. Correct the date.`
              : `${sprayer.name} was calibrated on ${calibrated!.value}, ${days} days before ${date}. Have it calibrated before the work, and write the new date.`,
          place: calibrated!.place,
          about: refOf(sprayer),
        };
      }
    }
  },
});
