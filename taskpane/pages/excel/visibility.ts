/** Whether the pane is to be seen. A shared runtime lives while it is closed, and begins unseen with a workbook that loads it. */
import { excelWords as words } from "../../words/excel-words.js";
import type { Visibility } from "../../pane.js";

export interface PaneVisibility extends Visibility {
  /** Resolves once the pane has been seen. */
  readonly firstShown: Promise<void>;
}

/** What Excel calls it, also in what it tells with `onReady`, which Microsoft's types leave out. */
const HIDDEN = "Hidden";

/** Excel may fail to tell: whoever points at the pane or types in it sees it. */
const SIGNS_OF_A_USER = ["pointermove", "pointerdown", "keydown"];

/** @param ready What `Office.onReady` gave. */
export function paneVisibility(ready: object, warn: (message: string) => void): PaneVisibility {
  const { addin } = ready as { readonly addin?: { readonly visibilityMode?: string } | null };
  const canBeClosed = Office.context.requirements.isSetSupported("SharedRuntime", "1.1");
  const listeners = new Set<() => void>();
  let isShown = !(canBeClosed && addin?.visibilityMode === HIDDEN);
  function shown(): void {
    if (isShown) return;
    isShown = true;
    for (const listener of [...listeners]) listener();
  }
  function onShown(listener: () => void): () => void {
    listeners.add(listener);
    return () => listeners.delete(listener);
  }
  if (canBeClosed)
    Office.addin
      .onVisibilityModeChanged(({ visibilityMode }) => {
        if (String(visibilityMode) === HIDDEN) isShown = false;
        else shown();
      })
      .catch((error: unknown) => {
        warn(words.unknownWhetherShown(String(error)));
        shown();
      });
  for (const sign of SIGNS_OF_A_USER) addEventListener(sign, shown);
  return {
    isShown: () => isShown,
    onShown,
    firstShown: isShown
      ? Promise.resolve()
      : new Promise((resolve) => {
          const stop = onShown(() => {
            stop();
            resolve();
          });
        }),
  };
}
