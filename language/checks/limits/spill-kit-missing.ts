import { check } from '../check.ts';
import { addLine, fullPlans, isChemical, refOf, replaceValue } from '../help.ts';

export default check({
  code: 'spill-kit-missing',
  title: 'No spill kit is at hand',
  severity: 'warning',
  why: 'Hoses burst and valves stay open. Airport wash rules ask for a spill plan wherever washing is done outside a wash facility, and section 6 of the safety data sheet says what belongs to it.',
  source: 'maryland-wash-rules',
  bad: ['    spill-kit: yes\n', ''],
  *find(results) {
    const plan = [...fullPlans(results.job)].find(isChemical);
    for (const block of results.job.blocks.environments) {
      if (!plan || block.spillKit?.value) continue;
      yield {
        message: `${plan.work.name} brings product onto the runway, and no spill kit is at hand. Have one on site, and write \`spill-kit: yes\`.`,
        place: block.heading,
        about: refOf(block),
        fixes:
          block.spillKit?.origin.by === 'own line'
            ? replaceValue(results, block.spillKit, 'yes', 'Have a spill kit on site')
            : addLine(results, block, 'spill-kit: yes', 'Have a spill kit on site'),
      };
    }
  },
});
