import { expect, it } from 'vitest';
import { leanColor } from '../../../src/page/pictures/lean-color.ts';

/** Contrast of two colours by WCAG 2.2, "contrast ratio" and "relative luminance". */
function contrast(a: readonly number[], b: readonly number[]): number {
  const light = (rgb: readonly number[]) => {
    const [red = 0, green = 0, blue = 0] = rgb.map((part) => {
      const share = part / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [high, low] = [light(a), light(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

const INKS: Readonly<Record<string, readonly number[]>> = {
  '#000000': [0, 0, 0],
  '#ffffff': [255, 255, 255],
};

it('can be read on trim of every lean', () => {
  for (let percent = 0; percent <= 100; percent++) {
    const { fill, ink } = leanColor(percent / 100);
    const ground = [...fill.matchAll(/\d+/g)].map(Number);
    expect(contrast(ground, INKS[ink] ?? []), `${percent} % fat`).toBeGreaterThanOrEqual(4.5);
  }
});
