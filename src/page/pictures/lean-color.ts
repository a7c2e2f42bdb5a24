/**
 * The colour of trim by its lean: cream for fat, deep red for lean, as it looks on the table. What it says is always
 * written beside it too.
 */
export function leanColor(fatFraction: number): { readonly fill: string; readonly ink: string } {
  const lean = Math.min(1, Math.max(0, 1 - fatFraction));
  const mix = (fat: number, red: number) => Math.round(fat + (red - fat) * lean ** 1.6);
  const [r, g, b] = [mix(244, 120), mix(226, 16), mix(196, 30)];
  return { fill: `rgb(${r} ${g} ${b})`, ink: luminance(r, g, b) > 0.179 ? '#000000' : '#ffffff' };
}

/** Relative luminance, WCAG 2.2. */
function luminance(...rgb: readonly number[]): number {
  const [r = 0, g = 0, b = 0] = rgb.map((part) => {
    const share = part / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
