import { check } from '../check.ts';
import { broken, refOf, say } from '../help.ts';

export default check({
  code: 'rotation-unusual',
  title: 'The broom turns unusually slowly or fast',
  severity: 'hint',
  why: 'Airport brooms turn at about 250 to 600 revolutions a minute (from memory). Too slow for the ground speed, the broom bulldozes and breaks its bristles at the ring; too fast, it throws the product away.',
  source: 'broom-practice',
  bad: ['    rotation:      300 rpm', '    rotation:      60 rpm'],
  *find(results) {
    for (const broom of results.job.blocks.brooms) {
      const { rotation } = broom;
      if (!rotation || !broken(rotation.value, { least: 250 / 60, most: 600 / 60 })) continue;
      yield {
        message: `${say(results, rotation.value, 'rotation speed', rotation)} is outside the 250 to 600 rpm that are usual for such brooms (from memory). Check the number, and that it goes with the ground speed.`,
        place: rotation.place,
        about: refOf(broom),
      };
    }
  },
});
