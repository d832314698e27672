import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'block-not-closed',
  title: 'A block is not closed',
  why: 'A block ends with }. Where it is missing, indentation tells where the block was meant to end, so that all others keep their findings.',
  bad: [
    '    covers: lights, joints\n    survey: "joints and lights photographed before the work"\n}\n',
    '    covers: lights, joints\n    survey: "joints and lights photographed before the work"\n',
  ],
});
