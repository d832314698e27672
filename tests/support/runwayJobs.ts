/**
 * Random problems of the shape of a runway job: bays that go through a chain of steps on shared machines, with soaking times
 * between them that have a least and a greatest value, at night. Same seed, same problem.
 */
import type { Activity, Lag, Problem, Resource, Together, Use, Window } from '../../language/schedule/solver/model.ts';

/** A small generator of numbers in [0, 1), repeatable (mulberry32). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * A job of about this many activities (five a bay and a wash-down that may end by day), times in seconds.
 *
 * `usual`: one or two zones, each cut into equal bays with a shorter rest, machines by name, brooms in tandem or as a pool;
 * each step goes through the bays of a zone in their order.
 * `free`: the same with the order of the bays left open.
 * `uneven`: every bay different and a crew that limits what goes on at once; harder than what people draw up.
 */
export function runwayJob(seed: number, size: number, shape: 'usual' | 'free' | 'uneven' = 'usual'): Problem {
  const next = random(seed);
  const between = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  const usual = shape !== 'uneven';
  const bays = Math.max(2, Math.round(size / 5));
  const zones = usual && bays >= 4 && next() < 0.6 ? 2 : 1;
  const inOrder = shape === 'usual';
  const night = between(usual ? 5 * 60 : 4 * 60, 7 * 60) * 60;
  const nights: Window[] = Array.from({ length: bays + 2 }, (_, k) => {
    const start = k * 86_400 + (usual ? 0 : between(0, 2) * 1800);
    return { start, end: start + night - (usual ? 0 : between(0, 1) * 1800) };
  });
  const activities: Activity[] = [];
  const lags: Lag[] = [];
  const together: Together[] = [];
  const machine = (): { activity: number; demand: number; zone: number }[] => [];
  const [sweepers, sprayers, brooms, trucks, crew] = [machine(), machine(), machine(), machine(), machine()];
  const broomCount = between(1, 3);
  const tandem = between(1, broomCount);
  const crewSize = between(4, 7);
  const travel = next() < 0.3 ? between(5, 15) * 60 : 0;
  const steps = (part: number): number[] =>
    [between(4, 12), between(8, 20), between(20, 45), between(15, 35), between(8, 20)].map(minutes =>
      Math.max(60, Math.round((minutes * 60 + between(0, 59)) * part)),
    );
  let lengths = steps(1);
  let soak = 0;
  let patience = 0;
  for (let bay = 0; bay < bays; bay++) {
    const zone = Math.floor((bay * zones) / bays);
    const opensZone = bay === 0 || zone !== Math.floor(((bay - 1) * zones) / bays);
    const closesZone = bay === bays - 1 || zone !== Math.floor(((bay + 1) * zones) / bays);
    if (opensZone || !usual) {
      lengths = steps(1);
      soak = between(30, 40) * 60;
      patience = between(20, 60) * 60;
    }
    const rest = usual && closesZone && !opensZone ? between(50, 100) / 100 : 1;
    const at = activities.length;
    const own = lengths.map(length => Math.max(60, Math.round(length * rest)));
    for (const duration of own) activities.push({ duration });
    const [sweep, spray, broom, rinse, pickup] = [at, at + 1, at + 2, at + 3, at + 4] as const;
    lags.push({ from: sweep, to: spray, least: own[0]! });
    lags.push({ from: spray, to: broom, least: soak, greatest: soak + patience });
    lags.push({ from: broom, to: rinse, least: own[2]!, greatest: own[2]! + patience });
    lags.push({ from: rinse, to: pickup, least: Math.round(own[3]! / 2) });
    if (inOrder && !opensZone) {
      for (const step of [sweep, spray, broom, rinse, pickup]) lags.push({ from: step - 5, to: step, least: 0 });
    }
    together.push({ activities: [sweep, spray, broom, rinse, pickup], windows: nights });
    sweepers.push({ activity: sweep, demand: 1, zone }, { activity: pickup, demand: 1, zone });
    sprayers.push({ activity: spray, demand: 1, zone });
    brooms.push({ activity: broom, demand: usual ? tandem : between(1, broomCount), zone });
    brooms.push({ activity: rinse, demand: 1, zone });
    trucks.push({ activity: rinse, demand: 1, zone });
    if (usual) continue;
    for (const activity of [sweep, spray, broom, rinse, pickup]) {
      crew.push({ activity, demand: activity === broom ? 2 : 1, zone });
    }
  }
  const washed = activities.length;
  activities.push({ duration: between(10, 40) * 60 });
  for (let bay = 0; bay < bays; bay++) {
    const pickup = 5 * bay + 4;
    lags.push({ from: pickup, to: washed, least: activities[pickup]!.duration });
  }
  const uses = (list: readonly Use[]): Use[] => list.map(({ activity, demand }) => ({ activity, demand: demand ?? 1 }));
  const named = (list: typeof sweepers): Resource =>
    travel === 0 || zones === 1
      ? { capacity: 1, uses: uses(list) }
      : { capacity: 1, uses: uses(list), changeover: list.map(a => list.map(b => (a.zone === b.zone ? 0 : travel))) };
  return {
    activities,
    lags,
    together,
    resources: [
      named(sweepers),
      named(sprayers),
      { capacity: broomCount, uses: uses(brooms) },
      named(trucks),
      ...(usual ? [] : [{ capacity: crewSize, uses: uses(crew) }]),
    ],
  };
}
