/** Keeps the workbook in the browser after every change, so that a reload loses nothing. */
import type { OpenedWorkbench } from "../../hosts/workbench/snapshots/opening.js";
import { debounced } from "../../views/parts/latest.js";
import type { WorkbenchStore } from "./store.js";
import { workbenchWords as words } from "./page-words.js";

export interface Autosave {
  /** The workbook changed. */
  request(): void;
  /** Nothing more is kept until the next change, and what was kept is gone. */
  forget(): Promise<void>;
}

const DELAY_MS = 800;

/** Held by the one tab whose workbook is kept: two would write over each other. */
const TAB = "downfeed workbook";

export function autosave(
  store: WorkbenchStore,
  workbook: () => OpenedWorkbench | undefined,
  failed: (error: unknown) => void,
): Autosave {
  let isWaiting = false;
  let last = Promise.resolve();
  let isOurs = false;
  whenOurs(() => {
    isOurs = true;
    keep();
  });

  function keep(): void {
    if (!isWaiting) return;
    if (!isOurs) return failed(new Error(words.otherTab));
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
    /** Another tab's is left to it. */
    async forget() {
      isWaiting = false;
      later.cancel();
      await last;
      if (isOurs) await store.clear();
    },
  };
}

/** Once no other tab holds it, until the page is gone. Where tabs cannot know of each other, at once. */
function whenOurs(begin: () => void): void {
  if (!("locks" in navigator)) return begin();
  void navigator.locks.request(TAB, () => {
    begin();
    return new Promise<never>(() => {});
  });
}
