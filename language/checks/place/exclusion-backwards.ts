import { check } from '../check.ts';
import { below, refOf, say } from '../help.ts';

export default check({
  code: 'exclusion-backwards',
  title: 'An exclusion ends before it begins',
  severity: 'error',
  why: 'Each row of an exclusion is a rectangle from one chainage to a greater one and from its left edge to its right one, offsets counted to the right. A rectangle the wrong way round has no area, so nothing is spared.',
  source: 'geometry',
  bad: [
    'trial Patch {',
    `exclusion Sensor {
    on:        Main from "04"
    what:      sensors
    treatment: avoid
    stations:  table from m, to m, left m, right m
        402  400  5  6
}

trial Patch {`,
  ],
  good: [
    'trial Patch {',
    `exclusion Sensor {
    on:        Main from "04"
    what:      sensors
    treatment: avoid
    stations:  table from m, to m, left m, right m
        400  402  -6  -5
}

trial Patch {`,
  ],
  *find(results) {
    for (const exclusion of results.job.blocks.exclusions) {
      for (const row of exclusion.stations?.value ?? []) {
        const lengthwise = below(row.to, row.from);
        if (!lengthwise && !below(row.right, row.left)) continue;
        const [a, b] = (lengthwise ? [row.from, row.to] : [row.left, row.right]).map(each =>
          say(results, each, 'length'),
        );
        yield {
          message: `This rectangle runs from ${a} back to ${b}, so it spares nothing. Write the smaller number first; to the left of the centreline offsets are negative.`,
          place: row.place,
          about: refOf(exclusion),
        };
      }
    }
  },
});
