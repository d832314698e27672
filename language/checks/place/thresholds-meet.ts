import { check } from '../check.ts';
import { refOf, say } from '../help.ts';

export default check({
  code: 'thresholds-meet',
  title: 'The displaced thresholds leave no runway between them',
  severity: 'error',
  why: 'The displacement counts from the end of the pavement. If the two together are as long as the runway, one of the numbers is wrong, and every chainage from that threshold with it.',
  source: 'geometry',
  bad: ['    length:    2450 m', '    length:    900 m', '        displaced: 120 m', '        displaced: 900 m'],
  alongside: ['deposit-beyond-end', 'friction-outside-runway', 'trial-outside-runway'],
  *find(results) {
    for (const runway of results.job.blocks.runways) {
      const displaced = runway.ends.reduce((sum, end) => sum + (end.displaced?.value ?? 0), 0);
      if (!runway.length || displaced < runway.length.value) continue;
      yield {
        message: `The thresholds are displaced by ${say(results, displaced, 'length')} together, but the runway is only ${say(results, runway.length.value, 'length', runway.length)} long. Correct the displacement or the length.`,
        place: runway.length.place,
        about: refOf(runway),
      };
    }
  },
});
