import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'acceptance-without-device',
  title: 'A friction is asked for without saying with which device and at which speed',
  severity: 'error',
  why: 'Friction levels hold for one device at one speed; values of different devices can not be equated. The same surface reads 0.60 with one device and 0.53 with another, so a number without its device decides nothing.',
  source: 'icao-annex-14-friction',
  bad: [
    '    device:   Surface Friction Tester\n    speed:    65 km/h\n    friction',
    '    speed:    65 km/h\n    friction',
  ],
  *find({ job }) {
    for (const block of job.blocks.acceptances) {
      if (!block.friction || (block.device && block.speed)) continue;
      const lacks = [block.device ? '' : '`device:`', block.speed ? '' : '`speed:`'].filter(Boolean).join(' and ');
      yield {
        message: `A friction of ${block.friction.text} says nothing without the device and the speed of the run. Add ${lacks}.`,
        place: block.friction.place,
        about: refOf(block),
      };
    }
  },
});
