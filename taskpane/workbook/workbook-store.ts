/** What was last read of the workbook's budgets, once for all views. */
import type { Host } from "../hosts/host.js";
import { type BudgetSearch, findBudgets } from "./found-budgets.js";

export interface WorkbookStore {
  /** Undefined before the first reading. */
  readonly search: BudgetSearch | undefined;
  /** Why the last reading failed; undefined after one that did not. */
  readonly failure: unknown;
  /** Reads anew. One that begins later overtakes this one: all of them end with the latest. */
  read(): Promise<BudgetSearch>;
  /** Called after each reading. Returns its stop. */
  subscribe(listener: () => void): () => void;
}

export function workbookStore(host: Host): WorkbookStore {
  const listeners = new Set<() => void>();
  let search: BudgetSearch | undefined;
  let failure: unknown;
  let latest: Promise<BudgetSearch> | undefined;

  async function read(): Promise<BudgetSearch> {
    const own = findBudgets(host);
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
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
