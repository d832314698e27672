/** Readers for the published scheduling instances in data/scheduling (formats: see the README there). */
import { readFileSync } from 'node:fs';
import type { Lag, Problem, Use } from '../../language/schedule/solver/model.ts';

/** One row of index.json: what is published about an instance, and what has been proved again since. */
export interface Instance {
  readonly file: string;
  readonly activities: number;
  readonly published: { readonly status: string; readonly lb: number | null; readonly ub: number | null };
  readonly verified: {
    readonly status: string;
    readonly makespan?: number | null;
    readonly lb?: number;
    readonly ub?: number;
  } | null;
}

const folder = new URL('./data/scheduling/', import.meta.url);

/** The instances whose format is read here. Storage resources (rcpsp-cpr) are not part of the solver's problem. */
export function instances(): readonly Instance[] {
  const rows = JSON.parse(readFileSync(new URL('index.json', folder), 'utf8')) as Instance[];
  return rows.filter(row => !row.file.startsWith('rcpsp-cpr/'));
}

export function readInstance(file: string): Problem {
  const text = readFileSync(new URL(file, folder), 'utf8');
  if (file.endsWith('.sch')) return readSch(text);
  if (file.endsWith('.sm')) return readSm(text);
  if (file.endsWith('.rcp')) return readRcp(text);
  return readJobShop(text);
}

const numbers = (line: string): number[] => line.trim().split(/\s+/).map(Number);

function problem(
  durations: readonly number[],
  demands: readonly (readonly number[])[],
  capacities: readonly number[],
  lags: readonly Lag[],
): Problem {
  return {
    activities: durations.map(duration => ({ duration })),
    lags,
    resources: capacities.map((capacity, k) => ({
      capacity,
      uses: demands.flatMap((row, activity): Use[] => (row[k]! > 0 ? [{ activity, demand: row[k]! }] : [])),
    })),
  };
}

/** ProGen/max: lags from start to start. */
function readSch(text: string): Problem {
  const lines = text.trim().split(/\r?\n/);
  const [n, K] = numbers(lines[0]!) as [number, number];
  const size = n + 2;
  const lags = lines.slice(1, 1 + size).flatMap((line): Lag[] => {
    const row = line.trim().split(/\s+/);
    const [from, count] = [Number(row[0]), Number(row[2])];
    return Array.from({ length: count }, (_, k) => ({
      from,
      to: Number(row[3 + k]),
      least: Number(row[3 + count + k]!.replace(/[[\]]/g, '')),
    }));
  });
  const rows = lines.slice(1 + size, 1 + 2 * size).map(numbers);
  return problem(
    rows.map(row => row[2]!),
    rows.map(row => row.slice(3, 3 + K)),
    numbers(lines[1 + 2 * size]!),
    lags,
  );
}

/** PSPLIB, single mode: a successor starts when the activity has ended. */
function readSm(text: string): Problem {
  const lines = text.split(/\r?\n/);
  const after = (title: string, skip: number, count: number): number[][] => {
    const at = lines.findIndex(line => line.startsWith(title));
    return lines.slice(at + skip, at + skip + count).map(numbers);
  };
  const size = Number(/jobs \(incl[^:]*:\s*(\d+)/.exec(text)![1]);
  const rows = after('REQUESTS', 3, size);
  const durations = rows.map(row => row[2]!);
  const lags = after('PRECEDENCE', 2, size).flatMap((row, from) =>
    row.slice(3).map((to): Lag => ({ from, to: to - 1, least: durations[from]! })),
  );
  return problem(
    durations,
    rows.map(row => row.slice(3)),
    after('RESOURCEAVAIL', 2, 1)[0]!,
    lags,
  );
}

/** Patterson. */
function readRcp(text: string): Problem {
  const values = numbers(text);
  let at = 0;
  const take = (count: number): number[] => {
    at += count;
    return values.slice(at - count, at);
  };
  const [size, K] = take(2) as [number, number];
  const capacities = take(K);
  const durations: number[] = [];
  const demands: number[][] = [];
  const lags: Lag[] = [];
  for (let from = 0; from < size; from++) {
    const [duration] = take(1) as [number];
    durations.push(duration);
    demands.push(take(K));
    for (const to of take(take(1)[0]!)) lags.push({ from, to: to - 1, least: duration });
  }
  return problem(durations, demands, capacities, lags);
}

/** Job shop: each row a job, of machine and duration in turn. */
function readJobShop(text: string): Problem {
  const rows = text
    .split(/\r?\n/)
    .filter(line => line.trim() !== '' && !line.startsWith('#'))
    .map(numbers);
  const [jobs, machines] = rows[0] as [number, number];
  const durations: number[] = [];
  const demands: number[][] = [];
  const lags: Lag[] = [];
  for (const row of rows.slice(1, 1 + jobs)) {
    for (let k = 0; k < machines; k++) {
      const i = durations.length;
      durations.push(row[2 * k + 1]!);
      demands.push(Array.from({ length: machines }, (_, m) => (m === row[2 * k] ? 1 : 0)));
      if (k > 0) lags.push({ from: i - 1, to: i, least: durations[i - 1]! });
    }
  }
  return problem(durations, demands, new Array<number>(machines).fill(1), lags);
}
