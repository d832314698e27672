import { permittedExposure } from '../../formulas/noise.ts';
import { check } from '../check.ts';
import { below, refOf, say } from '../help.ts';

export default check({
  code: 'noise-over-shift',
  title: 'The noise is too loud for a whole shift',
  severity: 'warning',
  safety: true,
  why: 'The time that may be spent in noise halves with every 5 dB: 8 hours at 90 dBA, 2 at 100. Jetting units are louder than that. Hearing protection lowers what reaches the ear; the rules on occupational safety of the place govern.',
  source: 'osha-1910-95',
  bad: ['    exclusion-zone: 15 m', '    exclusion-zone: 15 m\n    noise: 98'],
  *find(results) {
    const { safeties, crews } = results.job.blocks;
    for (const block of safeties) {
      if (!block.noise) continue;
      const allowed = permittedExposure(block.noise.value, 'osha');
      const crew = crews.find(each => each.shift && below(allowed, each.shift.value));
      if (!crew?.shift) continue;
      yield {
        message: `At ${block.noise.value} dBA people may stay ${say(results, allowed, 'time', crew.shift)} a day without protection, but the shift of ${crew.name} is ${crew.shift.text}. Add hearing protection to \`protection:\` and see to shorter turns; local rules govern.`,
        place: block.noise.place,
        related: [{ place: crew.shift.place, message: 'The shift.' }],
        about: refOf(block),
      };
    }
  },
});
