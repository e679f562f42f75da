import { useEffect, useState } from "preact/hooks";
import type { WorkbookStore } from "../../workbook/workbook-store.js";

export type StoreReading = Pick<WorkbookStore, "search" | "failure">;

/** The last reading of the workbook; the component is drawn anew after each. */
export function useStore(store: WorkbookStore): StoreReading {
  const read = () => ({ search: store.search, failure: store.failure });
  const [reading, show] = useState<StoreReading>(read);
  useEffect(() => {
    show(read());
    return store.subscribe(() => show(read()));
  }, [store]);
  return reading;
}

/** What it found; what an earlier one found, where it failed. */
export function useSearch(store: WorkbookStore): WorkbookStore["search"] {
  return useStore(store).search;
}
