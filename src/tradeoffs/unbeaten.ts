/** Of many candidates, those that no other one beats: none is at least as good in everything and better in something. */

export interface FrontPoint {
  /** The candidate's number. */
  readonly index: number;
  /** One for each objective; less is better. */
  readonly values: readonly number[];
}

/** At least as good in everything; of equals the one with the lower number. */
export function beats(one: FrontPoint, other: FrontPoint): boolean {
  let isBetter = false;
  for (let at = 0; at < one.values.length; at++) {
    const [own, its] = [one.values[at]!, other.values[at]!];
    if (!(own <= its)) return false;
    if (own < its) isBetter = true;
  }
  return isBetter || one.index < other.index;
}

export class UnbeatenPoints {
  private front: FrontPoint[];

  /** @param front Points of which none beats another one. */
  constructor(front: readonly FrontPoint[] = []) {
    this.front = [...front];
  }

  /** The candidate that beats the point, if one does. */
  beating(point: FrontPoint): FrontPoint | undefined {
    const at = this.front.findIndex((one) => beats(one, point));
    // What beats one candidate is likely to beat its neighbours: ask it first next time.
    if (at > 0) this.front.unshift(...this.front.splice(at, 1));
    return at < 0 ? undefined : this.front[0];
  }

  /** Those that the point beats are gone. */
  add(point: FrontPoint): void {
    if (this.beating(point)) return;
    this.front = this.front.filter((one) => !beats(point, one));
    this.front.push(point);
  }

  /** By the first figure, rising. */
  points(): readonly FrontPoint[] {
    return [...this.front].sort(
      (one, other) => one.values[0]! - other.values[0]! || one.index - other.index,
    );
  }
}
