/** Keeps the workbook in the browser after every change, so that a reload loses nothing. */
import type { OpenedWorkbench } from "./hosts/workbench-opening.js";
import { debounced } from "./views/latest.js";
import type { WorkbenchStore } from "./workbench-store.js";

export interface Autosave {
  /** The workbook changed. */
  request(): void;
  /** Nothing more is kept until the next change, and what was kept is gone. */
  forget(): Promise<void>;
}

const DELAY_MS = 800;

export function autosave(
  store: WorkbenchStore,
  workbook: () => OpenedWorkbench | undefined,
  failed: (error: unknown) => void,
): Autosave {
  let isWaiting = false;
  let last = Promise.resolve();

  function keep(): void {
    if (!isWaiting) return;
    isWaiting = false;
    const saved = workbook()?.save();
    if (saved === undefined) return;
    // One after the other, so that the last one stays.
    last = last.then(() => store.keep(saved)).catch(failed);
  }

  const later = debounced(keep, DELAY_MS);
  // The page may be gone before the delay is over.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") keep();
  });
  window.addEventListener("pagehide", keep);

  return {
    request() {
      isWaiting = true;
      later.request();
    },
    async forget() {
      isWaiting = false;
      later.cancel();
      await last;
      await store.clear();
    },
  };
}
