/** What was last read of the workbook's budgets, once for all views. */
import type { CellRange, Host, HostName, RangeContent } from "../hosts/host.js";
import { type BudgetSearch, findBudgets } from "./found-budgets.js";

export interface WorkbookStore {
  /** Undefined before the first reading. */
  readonly search: BudgetSearch | undefined;
  /** Why the last reading failed; undefined after one that did not. */
  readonly failure: unknown;
  /** Reads anew. One that begins later overtakes this one: all of them end with the latest. */
  read(): Promise<BudgetSearch>;
  /** The workbook's names as they are since the last change, read once for all who ask. */
  names(): Promise<readonly HostName[]>;
  /**
   * What these ranges hold since the last change. Those that were asked for last are kept, as the next cell of a spill
   * asks for the same, and are read anew with the budgets, as a change asks for both.
   * @throws {HostError} when a sheet is not there.
   */
  contents(ranges: readonly CellRange[]): Promise<readonly RangeContent[]>;
  /**
   * To be told of each change, as the host tells of it.
   * @returns whether a budget may read differently; not so where it is on other sheets only.
   */
  changed(sheets?: ReadonlySet<string>): boolean;
  /** Called after each reading. Returns its stop. */
  subscribe(listener: () => void): () => void;
}

export function workbookStore(host: Host): WorkbookStore {
  const listeners = new Set<() => void>();
  let search: BudgetSearch | undefined;
  let failure: unknown;
  let latest: Promise<BudgetSearch> | undefined;
  let names: Promise<readonly HostName[]> | undefined;
  let asked: readonly CellRange[] = [];
  /** By sheet and address, what is known of the ranges that were asked for last. */
  let held: ReadonlyMap<string, RangeContent> = new Map();
  /** Over when the latest reading is, however it ended. */
  let reading: Promise<unknown> | undefined;

  function readNames(): Promise<readonly HostName[]> {
    const own = host.names();
    names = own;
    // Whoever asked hears of the failure; the next one asks anew.
    own.catch(() => {
      if (names === own) names = undefined;
    });
    return own;
  }

  /** What was read while something changed is given to whoever asked, and not kept. */
  function hold(before: typeof held, contents: readonly RangeContent[]): void {
    if (held === before) held = new Map(contents.map((one) => [keyOf(one.range), one]));
  }

  async function readBudgets(ranges: readonly CellRange[]): Promise<readonly RangeContent[]> {
    const before = held;
    const beside = asked;
    try {
      const contents = await host.read([...ranges, ...beside]);
      hold(before, contents.slice(ranges.length));
      return contents.slice(0, ranges.length);
    } catch (error) {
      if (beside.length === 0) throw error;
      // What lies beside the budgets may be gone, or be more than the host gives at once.
      return host.read(ranges);
    }
  }

  async function contentsOf(ranges: readonly CellRange[]): Promise<readonly RangeContent[]> {
    asked = ranges;
    await reading;
    const before = held;
    const known = ranges.flatMap((range) => held.get(keyOf(range)) ?? []);
    if (known.length === ranges.length) return known;
    const contents = await host.read(ranges);
    hold(before, contents);
    return contents;
  }

  async function read(): Promise<BudgetSearch> {
    const own = findBudgets({ names: readNames, read: readBudgets });
    latest = own;
    reading = own.catch(() => undefined);
    try {
      const found = await own;
      if (latest !== own) return await latest!;
      search = found;
      failure = undefined;
      return found;
    } catch (error) {
      if (latest !== own) return await latest!;
      failure = error;
      throw error;
    } finally {
      if (latest === own) for (const listener of [...listeners]) listener();
    }
  }

  return {
    get search() {
      return search;
    },
    get failure() {
      return failure;
    },
    read,
    names: () => names ?? readNames(),
    contents: contentsOf,
    changed(sheets) {
      names = undefined;
      held = new Map([...held].filter(([, { range }]) => sheets && !isAmong(sheets, range)));
      const isRead = search && search.unknown.length === 0 && failure === undefined;
      if (!sheets || !isRead) return true;
      return [...search!.budgets, ...search!.old].some(({ ranges }) =>
        Object.values(ranges).some((range) => range && isAmong(sheets, range)),
      );
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** A formula may spell a sheet's name in its own way. */
function isAmong(sheets: ReadonlySet<string>, { sheet }: CellRange): boolean {
  return [...sheets].some((one) => one.toLowerCase() === sheet.toLowerCase());
}

function keyOf({ sheet, address }: CellRange): string {
  return `${sheet.toLowerCase()}!${address}`;
}
