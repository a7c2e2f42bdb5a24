/**
 * Calendar days from one day to another, both YYYY-MM-DD; negative when the second lies before the first. Julian day
 * numbers by Fliegel and Van Flandern, Communications of the ACM 11 (1968) 657.
 */
export function daysBetween(from: string, to: string): number {
  return julianDay(to) - julianDay(from);
}

function julianDay(date: string): number {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const beforeMarch = Math.trunc((month - 14) / 12);
  const century = Math.trunc((year + 4900 + beforeMarch) / 100);
  return (
    day -
    32075 +
    Math.trunc((1461 * (year + 4800 + beforeMarch)) / 4) +
    Math.trunc((367 * (month - 2 - 12 * beforeMarch)) / 12) -
    Math.trunc((3 * century) / 4)
  );
}
