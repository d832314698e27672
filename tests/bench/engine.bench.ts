/**
 * The engine on a full chemical job, warm: `node tests/bench/engine.bench.ts`. A runway of 3,000 × 60 m with 8 zones, all
 * steps from sweeping to picking up; tracks, exposure, their quantities, and the findings of every check. Then the same
 * zone with more and more circuits: time over passes has to stay level.
 */
import { URI } from 'langium';
import { analyse } from '../../language/analysis/analyse.ts';
import { runChecks } from '../../language/checks/run.ts';
import { exposuresOf, tracksOfJob } from '../../language/exposure/fromTracks.ts';
import { createWorkspace } from '../../language/grammar/services.ts';
import { analyseQuantities } from '../../language/quantities/quantities.ts';
import { reviewOf } from '../../language/schedule/review.ts';
import { scheduleToEnd } from '../../language/schedule/schedule.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { memory } from '../unit/grammar/helpers.ts';

/** Eight zones of 375 m over the full width that is worked, each one bay unless asked otherwise. */
function job(zones: number, cycles: number, reach: number): string {
  const length = 3000 / zones;
  const each = Array.from({ length: zones }, (_, k) => {
    const [from, to] = [k * length, (k + 1) * length];
    return `deposit D${k} {
  on: Main from "04"
  stations: table chainage m, left m, right m
    ${from} ${reach - 2} ${reach - 2}
    ${from + length / 3} ${reach} ${reach}
    ${to} ${reach - 2} ${reach - 1}
  build-up: heavy
}

work W${k} {
  removes: D${k}
  method: Full
  product: Alkaline
  bays: 1
}`;
  });
  return `broomline 1

job Bench {
  title: "Bench"
}

airport Tern {
  operator: "Tern"
  water-point Hydrant {
    distance: 600 m
    flow: 1200 L/min
  }
  emptying-point Sump {
    distance: 700 m
    takes: 10 min
  }
}

runway Main {
  length: 3000 m
  width: 60 m
  pavement: grooved asphalt
  end "04" {
  }
  end "22" {
  }
}

product Alkaline {
  safety-data-sheet: "s"
  dilution: 1 part product to 4 parts water
  dwell-least: 30 min
  dwell-most: 24 h
}

sprayer Boom {
  width: 8 m
  tank: 4000 L
}
broom Broom1 {
  width: 2.4 m
  angle: 30 °
  bristles: polypropylene
}
broom Broom2 like Broom1
water-truck Tanker {
  width: 4 m
  tank: 12000 L
}
sweeper Sweeper1 {
  width: 2.6 m
  picks-up-by: regenerative air
  hopper: 6 m3
  recovers: 90 %
}

method Full {
  family: chemical and brooms
  step Sweep {
    does: sweep
    by: Sweeper1
    speed: 12 km/h
    overlap: 0.3 m
    direction: against landing
  }
  step Spray {
    does: apply
    by: Boom
    speed: 8 km/h
    rate: 0.35 L/m2 of mix
  }
  step Soak {
    does: soak
    at-least: 40 min
  }
  step Agitate {
    does: agitate
    by: Broom1, Broom2
    speed: 6 km/h
    cycles: ${cycles}
    contacts: >= 2
  }
  step Rinse {
    does: rinse
    by: Tanker
    with: Broom1
    speed: 6 km/h
    rate: 3 L/m2 of water
  }
  step PickUp {
    does: pick-up
    by: Sweeper1
    speed: 6 km/h
    overlap: 0.3 m
  }
}

${each.join('\n\n')}
`;
}

async function load(text: string) {
  const { provider } = memory({ '/w/job.broom': text });
  const workspace = createWorkspace(provider, [URI.file('/w')], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
  const [document] = await workspace.open([URI.file('/w/job.broom')]);
  return analyse(document!, workspace).job;
}

/** Least and median of the runs, ms: on a busy machine the least is what the work itself takes. */
function measure(runs: number, run: () => void): readonly [least: number, median: number] {
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  }).toSorted((a, b) => a - b);
  return [times[0]!, times[Math.floor(times.length / 2)]!];
}

const full = await load(job(8, 1, 28));
const works = tracksOfJob(full);
const exposures = exposuresOf(works);
const computed = analyseQuantities(full, { works, exposures });
const schedule = scheduleToEnd(full, works);
const results = {
  job: full,
  works,
  exposures,
  quantities: computed.known,
  schedule,
  review: reviewOf(schedule),
  system: full.system,
  textOf: () => '',
};
const passes = works
  .flatMap(work =>
    work.bays.flatMap(bay => bay.activities.flatMap(each => each.machines.map(m => m.run.passes.length))),
  )
  .reduce((a, b) => a + b, 0);
const line = (name: string, [least, median]: readonly [number, number]): void => {
  console.log(`${name.padEnd(44)} ${least.toFixed(2).padStart(8)} ms, median ${median.toFixed(2)} ms`);
};
console.log(
  `8 zones of 375 × 56 m, ${passes} passes, ${exposures.reduce((n, e) => n + e.exposure.cells.length, 0)} cells`,
);
for (let i = 0; i < 20; i++) exposuresOf(tracksOfJob(full));
const tracksTime = measure(25, () => tracksOfJob(full));
for (let i = 0; i < 5; i++) runChecks(results);
const findings = measure(25, () => runChecks(results));
const quantities = measure(15, () => analyseQuantities(full, { works, exposures }));
line('tracks and exposure, with their lags', tracksTime);
line('findings of all checks', findings);
line('together', [tracksTime[0] + findings[0], tracksTime[1] + findings[1]]);
line('explained quantities, for comparison', quantities);

console.log('\none zone, more and more cycles');
for (const cycles of [1, 2, 4, 8]) {
  const one = await load(job(8, cycles, 28));
  const plan = { ...one, plans: one.plans.slice(0, 1) };
  for (let i = 0; i < 10; i++) exposuresOf(tracksOfJob(plan));
  const count = tracksOfJob(plan)[0]!
    .bays[0]!.activities.flatMap(each => each.machines.map(m => m.run.passes.length))
    .reduce((a, b) => a + b, 0);
  const ms = measure(25, () => exposuresOf(tracksOfJob(plan)));
  line(`${count} passes, ${((1000 * ms[0]) / count).toFixed(2)} µs a pass`, ms);
}
