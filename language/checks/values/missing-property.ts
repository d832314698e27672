import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-property',
  title: 'A required property is missing',
  why: 'Without it what the block is for can not be computed or judged. Each kind has few required properties.',
  bad: ['    build-up: heavy\n', ''],
  // The safety data sheet has a check of its own, which can't be waived.
  except: problem => problem.data?.property === 'safety-data-sheet',
});
