/** Keeps the workbook in the browser after every change, so that a reload or a closing loses nothing. */
import type { OpenedWorkbench } from "../../hosts/workbench/snapshots/opening.js";
import { debounced } from "../../views/parts/latest.js";
import { waitForTurn } from "./one-tab.js";
import { NewerWorkbook, type WorkbenchStore } from "./store.js";

/**
 * Of the changes made so far. `another tab`: that one keeps its own workbook; `newer`: another tab kept one since this
 * one was opened.
 */
export type Keeping =
  | { readonly state: "nothing" | "keeping" | "kept" | "another tab" | "newer" }
  | { readonly state: "failed"; readonly error: unknown };

export interface Autosave {
  /** The workbook changed. */
  request(): void;
  /** The workbook is in a file as it is: nothing is lost where the browser does not keep it. */
  filed(): void;
  /** Nothing more is kept until the next change, and what was kept is gone. Another tab's is left to it. */
  forget(): Promise<void>;
}

const DELAY_MS = 800;

type Standing = "none" | "waiting" | "ours" | "newer";

export function autosave(
  store: WorkbenchStore,
  workbook: () => OpenedWorkbench | undefined,
  tell: (keeping: Keeping) => void,
): Autosave {
  const isSole = "locks" in navigator;
  let standing: Standing = "none";
  /** Changes are counted: those made, those handed to the browser, those that it has kept, those in a file. */
  let made = 0;
  let handed = 0;
  let kept = 0;
  let inFile = 0;

  /** Once no other tab keeps its own, which may be when that one is closed. */
  async function claim(isPatient: boolean): Promise<void> {
    standing = "waiting";
    const end = await waitForTurn(isPatient);
    try {
      if (end === undefined) standing = "none";
      else standing = (await store.isNewer()) ? "newer" : "ours";
    } catch (error) {
      standing = "none";
      tell({ state: "failed", error });
    }
    if (standing !== "ours") end?.();
    if (standing !== "none") keep();
  }

  function keep(): void {
    if (handed === made) return;
    if (standing === "none") return void claim(true);
    if (standing === "waiting") return tell({ state: "another tab" });
    if (standing === "newer") return tell({ state: "newer" });
    const saved = workbook()?.save();
    if (saved === undefined) return;
    const upTo = made;
    handed = upTo;
    store.keep(saved, isSole).then(
      () => {
        kept = Math.max(kept, upTo);
        if (kept === made) tell({ state: "kept" });
      },
      (error: unknown) => {
        if (kept < upTo) handed = kept;
        if (error instanceof NewerWorkbook) standing = "newer";
        tell(standing === "newer" ? { state: "newer" } : { state: "failed", error });
      },
    );
  }

  const later = debounced(keep, DELAY_MS);

  /** The page may be gone before the delay is over. */
  function keepNow(): void {
    if (isSole && store.isReady && standing === "ours") keep();
  }
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") keepNow();
  });
  window.addEventListener("pagehide", keepNow);
  window.addEventListener("beforeunload", (event) => {
    keepNow();
    const safe = isSole ? handed : kept;
    const isLost = safe < made && inFile < made;
    if (isLost || workbook()?.host.isTyping()) event.preventDefault();
  });

  function request(): void {
    made++;
    if (standing === "ours") tell({ state: "keeping" });
    if (standing === "none") void claim(true);
    later.request();
  }
  store.onCleared(request);

  return {
    request,
    filed() {
      inFile = made;
    },
    async forget() {
      later.cancel();
      handed = kept = inFile = made;
      tell({ state: "nothing" });
      if (standing === "none") await claim(false);
      if (standing === "ours") await store.clear();
    },
  };
}
