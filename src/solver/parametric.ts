/** One point of a curve: how high it is there and how steep. */
export interface CurvePoint {
  readonly at: number;
  readonly value: number;
  readonly slope: number;
}

/** Values that differ by less than this share lie on one line. */
const SAME = 1e-9;
const MOST_CORNERS = 500;

/**
 * The corners of a curve that is made of straight lines and bends one way only, such as the least cost against one
 * bound: two tangents meet, and where they meet the curve is asked again. If it lies there, the meeting point is a
 * corner, otherwise there are more on either side (Eisner and Severance, Journal of the ACM 23 (1976)). So every
 * corner is found, and found as exactly as the tangents are.
 * @param ask height and slope at a place between the two ends.
 * @returns the ends and the corners between them, in order.
 */
export function corners(ask: (at: number) => CurvePoint | undefined, from: number, to: number): CurvePoint[] {
  const first = ask(from);
  const last = ask(to);
  if (!first || !last) return [first, last].filter((point) => point !== undefined);
  const found: CurvePoint[] = [first];
  between(ask, first, last, found);
  found.push(last);
  return withoutFlats(found);
}

/** A place that was asked in the middle of a straight line is no corner. */
function withoutFlats(points: readonly CurvePoint[]): CurvePoint[] {
  const kept: CurvePoint[] = [];
  points.forEach((point, index) => {
    const [before, after] = [kept.at(-1), points[index + 1]];
    if (!before || !after) {
      kept.push(point);
      return;
    }
    const share = (point.at - before.at) / (after.at - before.at);
    const straight = before.value + share * (after.value - before.value);
    if (Math.abs(point.value - straight) > sameAs(before, after)) kept.push(point);
  });
  return kept;
}

function sameAs(left: CurvePoint, right: CurvePoint): number {
  return SAME * Math.max(1, Math.abs(left.value), Math.abs(right.value));
}

function between(
  ask: (at: number) => CurvePoint | undefined,
  left: CurvePoint,
  right: CurvePoint,
  found: CurvePoint[],
): void {
  if (found.length >= MOST_CORNERS) return;
  const width = right.at - left.at;
  const size = sameAs(left, right);
  const onOneLine =
    Math.abs(left.value + left.slope * width - right.value) <= size ||
    Math.abs(right.value - right.slope * width - left.value) <= size;
  if (onOneLine || width <= SAME * Math.max(1, Math.abs(left.at))) return;
  const at = meeting(left, right);
  if (!(at > left.at && at < right.at)) return;
  const middle = ask(at);
  if (!middle) return;
  const tangent = left.value + left.slope * (at - left.at);
  if (Math.abs(middle.value - tangent) <= size) {
    found.push(middle);
    return;
  }
  between(ask, left, middle, found);
  found.push(middle);
  between(ask, middle, right, found);
}

function meeting(left: CurvePoint, right: CurvePoint): number {
  const rise = right.value - right.slope * right.at - (left.value - left.slope * left.at);
  return rise / (left.slope - right.slope);
}
