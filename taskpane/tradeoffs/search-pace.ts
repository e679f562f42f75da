/** How long the rest of a share takes, by what its candidates took so far: the first small block tells it at once. */

interface Running {
  readonly count: number;
  readonly figured: number;
  readonly settled: number;
}

export class SearchPace {
  private before: number;
  /** Milliseconds spent on figures, and on judgement. */
  private figuring = 0;
  private settling = 0;
  private settled = 0;

  /** @param now Milliseconds, from any beginning. */
  constructor(
    private readonly running: Running,
    now: number,
  ) {
    this.before = now;
  }

  look(now: number): void {
    const { settled } = this.running;
    if (settled > this.settled) this.settling += now - this.before;
    else this.figuring += now - this.before;
    this.settled = settled;
    this.before = now;
  }

  /** Milliseconds; undefined as long as nothing is settled. */
  get left(): number | undefined {
    const { count, figured, settled } = this.running;
    if (settled === count) return 0;
    if (settled === 0) return undefined;
    return (
      ((count - figured) * this.figuring) / figured + ((count - settled) * this.settling) / settled
    );
  }
}
