/** How many answers of a spread lie where: classes of equal width. */

export interface SpreadClass {
  readonly from: number;
  /** Belongs to the next class, but for the last one's. */
  readonly to: number;
  /** Of all answers. */
  readonly share: number;
}

/**
 * @param sorted Answers, lowest first, none outside of the classes.
 * @param ends Lowest and highest end of all classes; where they are one number there is one class.
 */
export function histogram(
  sorted: Float64Array,
  [lowest, highest]: readonly [number, number],
  classes: number,
): readonly SpreadClass[] {
  if (lowest === highest) return [{ from: lowest, to: highest, share: 1 }];
  const width = (highest - lowest) / classes;
  const counts = new Uint32Array(classes);
  for (const answer of sorted) {
    const place = Math.min(classes - 1, Math.floor((answer - lowest) / width));
    counts[place]! += 1;
  }
  return Array.from(counts, (count, place) => ({
    from: lowest + place * width,
    to: place === classes - 1 ? highest : lowest + (place + 1) * width,
    share: count / sorted.length,
  }));
}
