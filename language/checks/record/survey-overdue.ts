import { intervalText, maintenanceFrequency, nextDue } from '../../friction/frequency.ts';
import { check } from '../check.ts';
import { endOf, refOf, runwayOf, today } from '../help.ts';

export default check({
  code: 'survey-overdue',
  title: 'The last friction survey is older than the traffic allows',
  severity: 'warning',
  why: 'How often friction is measured goes by the landings on each end: with 91 to 150 jet landings a day once a month, with less than 15 once a year. Three restatements of the table agree; the heavier of landings and landed mass governs.',
  source: 'faa-12c-frequency',
  bad: ['    date:     2031-02-20', '    date:     2030-06-20'],
  *find(results) {
    const date = today(results);
    if (!date) return;
    const surveys = results.job.blocks.surveys.filter(survey => survey.on && survey.date);
    for (const survey of surveys) {
      const end = endOf(runwayOf(results.job, survey.on), survey.on!.value.end);
      const later = surveys.some(
        other =>
          other.on!.value.runway.id === survey.on!.value.runway.id &&
          other.on!.value.end === survey.on!.value.end &&
          other.date!.value > survey.date!.value,
      );
      const due =
        end &&
        maintenanceFrequency({
          ...(end.landings && { landingsPerDay: end.landings.value }),
          ...(end.landedMass && { annualMass: end.landedMass.value }),
          ...(end.wideBodies && { wideBodyShare: end.wideBodies.value }),
        });
      const next = due && nextDue(survey.date!.value, due.survey);
      if (later || !next || next >= date) continue;
      yield {
        message: `The last survey from "${end.name}" is of ${survey.date!.value}; with its traffic the next was due on ${next} (every ${intervalText(due.survey)}, ${due.mark}). Have it run before the extent of the work is fixed.`,
        place: survey.date!.place,
        about: refOf(survey),
      };
    }
  },
});
