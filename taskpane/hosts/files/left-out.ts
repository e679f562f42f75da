/** What of a workbook did not come along: each kind once, with how often and where first. */
export interface LeftOut {
  /** In words, as a line of a list: "charts". */
  readonly what: string;
  readonly count: number;
  /** First place: a sheet or `Sheet!B4`; "" for the workbook as a whole. */
  readonly where: string;
}

export interface LeftOutList {
  add(what: string, where?: string): void;
  readonly items: readonly LeftOut[];
}

export function leftOutList(): LeftOutList {
  const found = new Map<string, { count: number; where: string }>();
  return {
    add(what, where = "") {
      const known = found.get(what);
      if (known) known.count += 1;
      else found.set(what, { count: 1, where });
    },
    get items() {
      return [...found].map(([what, { count, where }]) => ({
        what,
        count,
        where,
      }));
    },
  };
}
