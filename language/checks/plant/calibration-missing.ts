import { check } from '../check.ts';
import { addLine, allSteps, machinesOf, refOf, today } from '../help.ts';

export default check({
  code: 'calibration-missing',
  title: 'Nothing says when the applicator was calibrated',
  severity: 'warning',
  why: 'Equipment that was not calibrated can be off by more than 10 %, says the extension literature. The specification has to say when it was done and with what.',
  source: 'ncsu-sprayer',
  bad: ['    calibrated:       2031-02-10\n', ''],
  *find(results) {
    const seen = new Set<string>();
    for (const planned of allSteps(results.job, 'apply')) {
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        if (sprayer.calibrated || seen.has(sprayer.id)) continue;
        seen.add(sprayer.id);
        const date = today(results);
        yield {
          message: `${sprayer.name} puts the product on, but nothing says when it was calibrated, so its rate may be off by more than 10 %. Add \`calibrated:\` with the date, and \`calibrated-with:\`.`,
          place: sprayer.heading,
          about: refOf(sprayer),
          fixes: date
            ? addLine(results, sprayer, `calibrated: ${date}`, 'Add the date of calibration, to be confirmed')
            : [],
        };
      }
    }
  },
});
