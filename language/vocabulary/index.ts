/** The vocabulary: every block kind there is. Everything that needs to know what a block may hold reads this table. */
import { airport } from './airport.ts';
import { type BlockKind, kebab, type Property } from './define.ts';
import { deposit } from './deposit.ts';
import { job } from './job.ts';
import { acceptance, conditions, cost, environment, exclusion, log, safety, survey, warranty } from './limits.ts';
import { method } from './method.ts';
import { broom, fleet, jet, magnet, sprayer, sweeper, waterTruck } from './plant.ts';
import { product } from './product.ts';
import { runway } from './runway.ts';
import { closure, crew, holdPoint, trial, weatherStop } from './time.ts';
import { work } from './work.ts';

/** Kinds that stand at the top of a file, by the key under which the job holds them. */
export const topKinds = {
  jobs: job,
  airports: airport,
  runways: runway,
  deposits: deposit,
  products: product,
  sprayers: sprayer,
  brooms: broom,
  waterTrucks: waterTruck,
  sweepers: sweeper,
  magnets: magnet,
  jets: jet,
  fleets: fleet,
  methods: method,
  works: work,
  closures: closure,
  crews: crew,
  conditions,
  surveys: survey,
  acceptances: acceptance,
  environments: environment,
  exclusions: exclusion,
  trials: trial,
  holdPoints: holdPoint,
  weatherStops: weatherStop,
  costs: cost,
  safeties: safety,
  warranties: warranty,
  logs: log,
} as const;

/** Every kind, nested ones too, by its word. */
export const kinds: ReadonlyMap<string, BlockKind> = collect();

export const topKindWords: ReadonlySet<string> = new Set(Object.values(topKinds).map(kind => kind.kind));

/** The property as written (`build-up`), or undefined. */
export function propertyOf(kind: BlockKind, word: string): { key: string; property: Property } | undefined {
  return propertyTable(kind).get(word);
}

/** Every property of a kind by its written word, in the order in which the formatter writes them. */
export function propertyTable(kind: BlockKind): ReadonlyMap<string, { key: string; property: Property }> {
  return tables.get(kind.kind) ?? tableOf(kind);
}

const tables: ReadonlyMap<string, ReadonlyMap<string, { key: string; property: Property }>> = new Map(
  [...kinds.values()].map(kind => [kind.kind, tableOf(kind)]),
);

function tableOf(kind: BlockKind): ReadonlyMap<string, { key: string; property: Property }> {
  return new Map(Object.entries(kind.properties).map(([key, property]) => [kebab(key), { key, property }]));
}

function collect(): ReadonlyMap<string, BlockKind> {
  const found = new Map<string, BlockKind>();
  const visit = (kind: BlockKind): void => {
    found.set(kind.kind, kind);
    for (const child of Object.values(kind.blocks)) visit(child);
  };
  for (const kind of Object.values(topKinds)) visit(kind);
  return found;
}
