import { useEffect, useState } from "preact/hooks";
import type { WorkbookStore } from "../../workbook/workbook-store.js";

/** The last reading of the workbook; the component is drawn anew after each. */
export function useSearch(store: WorkbookStore): WorkbookStore["search"] {
  const [search, show] = useState(store.search);
  useEffect(() => {
    show(store.search);
    return store.subscribe(() => show(store.search));
  }, [store]);
  return search;
}
