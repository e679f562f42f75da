/** What was last read of the workbook's budgets, once for all views. */
import type { Host, HostName } from "../hosts/host.js";
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

  function readNames(): Promise<readonly HostName[]> {
    const own = host.names();
    names = own;
    // Whoever asked hears of the failure; the next one asks anew.
    own.catch(() => {
      if (names === own) names = undefined;
    });
    return own;
  }

  async function read(): Promise<BudgetSearch> {
    const own = findBudgets({ names: readNames, read: (ranges) => host.read(ranges) });
    latest = own;
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
    changed(sheets) {
      names = undefined;
      const isRead = search && search.unknown.length === 0 && failure === undefined;
      if (!sheets || !isRead) return true;
      return [...search!.budgets, ...search!.old].some(({ ranges }) =>
        Object.values(ranges).some((range) => range && sheets.has(range.sheet)),
      );
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
