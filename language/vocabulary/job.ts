import { blockKind, date, nameOf, phrase, quantity, text, words } from './define.ts';

/** What the file is: the job, its revision and who stands behind it. */
export const job = blockKind({
  kind: 'job',
  doc: 'The job as a whole: title, revision, date of issue. A file with a job block is a job; a file without one is a library.',
  group: 'job',
  properties: {
    title: text('What the job is called in the tender documents.', { required: true }),
    airport: nameOf(['airport'], 'The airport where the work is done.'),
    client: text('For whom the specification is written.'),
    author: text('Who wrote it and answers for it.'),
    checkedBy: text('Who checked the calculation.'),
    revision: text('Revision letter or number.', { example: '"C"' }),
    issue: words(
      ['draft', 'for review', 'for tender', 'for construction', 'record'],
      'What this revision is issued for.',
      {
        default: 'draft',
      },
    ),
    date: date('Date of this revision. Waivers are judged on this date unless another is asked for.'),
    units: words(
      ['metric', 'US customary'],
      'The unit system in which results are shown; by default the one most used in the file.',
    ),
    currency: phrase('currency', 'Currency of all costs, three letters by ISO 4217.'),
    contingency: quantity('share', 'Share added to quantities of product and water ordered.', {
      least: '0 %',
      most: '50 %',
      default: '0 %',
    }),
  },
});
