import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'acceptance-by-eye',
  title: 'The work is judged by eye alone',
  severity: 'error',
  why: 'Change of colour is no evidence: a surface that looks clean can still be slippery, because rubber stays in the pores where nobody sees it. The aim is wet friction, which has to be measured.',
  source: 'icao-9137-2-removal',
  bad: [
    '    removed:  85 %\n    of-area:  100 %\n    device:   Surface Friction Tester\n    speed:    65 km/h\n    friction: 0.60\n    stretch:  100 m\n',
    '    visual:   "no black to be seen"\n',
  ],
  *find({ job }) {
    for (const block of job.blocks.acceptances) {
      const measured = block.friction ?? block.texture ?? block.textureLoss;
      if (measured || (!block.visual && !block.removed)) continue;
      yield {
        message: block.visual
          ? `The work is accepted by what is seen, and colour is no evidence: rubber in the pores is slippery and can't be seen. Ask for friction with a device and a speed, or for texture.`
          : 'A share of the deposit can be judged only by eye if neither friction nor texture is measured. Ask for friction with a device and a speed, or for texture.',
        place: block.visual?.place ?? block.heading,
        about: refOf(block),
      };
    }
  },
});
