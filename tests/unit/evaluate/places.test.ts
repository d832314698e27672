import { expect, test } from 'vitest';
import type { AnyBlock } from '../../../language/job/job.ts';
import { jobOf } from '../../support/jobs.ts';

const text = `broomline 1
runway /* the long one */ Main {
    length: 2450 m
    end "04" { displaced: 120 m }
    end /* other */ "22"
}
conditions {
    air: 12 °C
}
method Wash { step Soak { does: soak } }
broom B1
`;

test('the heading of a block is its kind and its name, nested or not, and nothing of its body', async () => {
  const job = await jobOf(text);
  const headings = [...job.byId.values()].map(({ heading, place }: AnyBlock) => [
    text.slice(heading.start, heading.end),
    text.slice(place.start, place.end).endsWith('}'),
  ]);
  expect(headings).toEqual(
    [
      ['runway /* the long one */ Main', true],
      ['end "04"', true],
      ['end /* other */ "22"', false],
      ['method Wash', true],
      ['step Soak', true],
      ['broom B1', false],
      ['conditions', true],
    ].toSorted(byText(headings)),
  );
});

/** The job lists blocks by kind; their order is not what is looked at here. */
function byText(as: readonly unknown[][]): (a: unknown[], b: unknown[]) => number {
  const order = as.map(each => each[0]);
  return (a, b) => order.indexOf(a[0]) - order.indexOf(b[0]);
}
