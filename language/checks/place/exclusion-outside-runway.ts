import { check } from '../check.ts';
import { above, broken, chainageRange, endOf, refOf, runwayOf, say } from '../help.ts';

export default check({
  code: 'exclusion-outside-runway',
  title: 'An exclusion lies off the runway',
  severity: 'error',
  why: 'An exclusion tells the crew what to spare, and where. Off the pavement it spares nothing, so what it was written for is unprotected. Its offsets count to the right of the centreline, so those on the left are negative.',
  source: 'geometry',
  bad: [
    'trial Patch {',
    `exclusion Sensor {
    on:        Main from "04"
    what:      sensors
    treatment: avoid
    stations:  table from m, to m, left m, right m
        400  402  30  31
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
        400  402  5  6
}

trial Patch {`,
  ],
  *find(results) {
    for (const exclusion of results.job.blocks.exclusions) {
      const runway = runwayOf(results.job, exclusion.on);
      const range = runway && chainageRange(runway, endOf(runway, exclusion.on?.value.end));
      if (!range || !runway.width) continue;
      const half = runway.width.value / 2;
      for (const row of exclusion.stations?.value ?? []) {
        const s = [row.from, row.to].find(each => broken(each, { least: range[0], most: range[1] }));
        const t = [row.left, row.right].find(each => above(Math.abs(each), half));
        if (s === undefined && t === undefined) continue;
        const what =
          s !== undefined
            ? `chainage ${say(results, s, 'length')} is beyond the ends of the runway`
            : `offset ${say(results, t!, 'length')} is beyond its edge at ${say(results, half, 'length')}`;
        yield {
          message: `This exclusion lies off the runway: ${what}. Correct it, or what it should spare is not protected.`,
          place: row.place,
          about: refOf(exclusion),
        };
      }
    }
  },
});
