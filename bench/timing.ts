import { performance } from 'node:perf_hooks';

const WARM_UP_MS = 400;
const MEASURE_MS = 2000;
const LEAST_CALLS = 30;

export interface Timing {
  readonly medianUs: number;
  readonly p95Us: number;
  readonly n: number;
}

/** Times every subject in turn within each round, so that a slow spell of the machine falls on all of them. */
export function timeTogether(subjects: Readonly<Record<string, () => unknown>>): Record<string, Timing> {
  const names = Object.keys(subjects);
  const times = new Map(names.map((name) => [name, [] as number[]]));
  const round = (record: boolean) => {
    for (const [name, run] of Object.entries(subjects)) {
      const start = performance.now();
      run();
      const tookUs = (performance.now() - start) * 1000;
      if (record) times.get(name)?.push(tookUs);
    }
  };
  for (const until = performance.now() + WARM_UP_MS; performance.now() < until; ) round(false);
  const until = performance.now() + MEASURE_MS;
  for (let calls = 0; calls < LEAST_CALLS || performance.now() < until; calls++) round(true);
  return Object.fromEntries(
    names.map((name) => {
      const sorted = [...(times.get(name) ?? [])].sort((a, b) => a - b);
      const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
      return [name, { medianUs: at(0.5), p95Us: at(0.95), n: sorted.length }];
    }),
  );
}

/** Prints one figure as a line of JSON. @param of what the figure is about, such as a count of lots. */
export function print(name: string, value: number, unit: string, of: Readonly<Record<string, number>>): void {
  const rounded = Number(value.toPrecision(4));
  console.log(JSON.stringify({ name, value: rounded, unit, ...of, node: process.version }));
}

/** The value below which a share of the values lie. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
}
