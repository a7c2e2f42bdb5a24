import { type Frame, ticks } from '../pictures/scale.ts';
import { type ControlChart, controlChart } from './control-chart.ts';

/** Where the points and lines of a control chart stand. Figures are CSS pixels; fat is in percent. */

export interface Line {
  readonly name: 'mean' | 'plus2' | 'minus2' | 'plus3' | 'minus3' | 'class' | 'learned';
  readonly value: number;
  readonly y: number;
  /** Where its words stand, apart from those of the other lines. */
  readonly labelY: number;
}

export interface ChartLayout {
  readonly chart: ControlChart;
  readonly lines: readonly Line[];
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly ticks: readonly { readonly value: number; readonly y: number }[];
}

const LABEL_APART = 17;

/** @param values percent of fat, in the order of time. @param given means that are drawn beside the chart's own. */
export function chartLayout(
  values: readonly number[],
  given: { readonly class: number; readonly learned: number },
  { width, height, left, right, top, bottom }: Frame,
): ChartLayout {
  const chart = controlChart(values);
  const drawn: [Line['name'], number][] = [
    ...limitLines(chart),
    ['class', given.class],
    ['learned', given.learned],
  ];
  const [least, most] = rangeOf([...values, ...drawn.map(([, value]) => value)]);
  const yOf = (value: number) => top + ((most - value) / (most - least)) * (height - top - bottom);
  const inner = width - left - right;
  const xOf = (at: number) =>
    left + (values.length < 2 ? inner / 2 : 12 + (at / (values.length - 1)) * (inner - 24));
  const placed = drawn.map(([name, value]) => ({ name, value, y: yOf(value) }));
  const labels = apart(
    placed.map(({ y }) => y),
    LABEL_APART,
    top,
    height - bottom,
  );
  return {
    chart,
    lines: placed.map((line, at) => ({ ...line, labelY: labels[at] ?? line.y })),
    points: values.map((value, at) => ({ x: xOf(at), y: yOf(value) })),
    ticks: ticks([least, most], 6).map((value) => ({ value, y: yOf(value) })),
  };
}

function limitLines({ limits }: ControlChart): [Line['name'], number][] {
  if (!limits) return [];
  const { mean, sd } = limits;
  return [
    ['plus3', mean + 3 * sd],
    ['plus2', mean + 2 * sd],
    ['mean', mean],
    ['minus2', mean - 2 * sd],
    ['minus3', mean - 3 * sd],
  ];
}

/** What the axis covers: everything drawn, with a little air. */
function rangeOf(values: readonly number[]): [number, number] {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const air = Math.max(0.5, (most - least) * 0.06);
  return [least - air, most + air];
}

/** Heights for words that are at least so far apart, each as near to its own as the others let it, within the frame. */
export function apart(wanted: readonly number[], least: number, from: number, until: number): number[] {
  const order = wanted.map((y, at) => ({ y, at })).sort((one, other) => one.y - other.y);
  const placed: number[] = [];
  order.forEach(({ y }, index) => {
    placed.push(Math.max(y, (placed[index - 1] ?? from - least) + least));
  });
  for (let index = placed.length - 1, room = until; index >= 0; index -= 1) {
    placed[index] = Math.min(placed[index] ?? room, room);
    room = (placed[index] ?? room) - least;
  }
  const found: number[] = [];
  order.forEach(({ at }, index) => {
    found[at] = placed[index] ?? 0;
  });
  return found;
}
