/** Tells listeners that values in the workbench changed: once for an edit with all that follows from it. */
import type { ICommandService } from "@univerjs/core";
import type { Calculation } from "./calculation.js";

export interface ChangeNotifier {
  /** Returns its stop. */
  listen(listener: () => void): () => void;
  dispose(): void;
}

/** The spreadsheet's commands after which a cell may read differently. */
const OF_VALUES =
  /^(sheet\.mutation\.(set-range-values|insert-sheet|remove-sheet|set-worksheet-name|insert-row|insert-col|remove-rows|remove-col|move-rows|move-columns|move-range|reorder-range|set-worksheet-order)|formula\.mutation\.(set-defined-name|remove-defined-name|set-formula-calculation-result|set-array-formula-data))$/;

const QUIET_MS = 60;

export function changeNotifier(
  commands: ICommandService,
  calculation: Calculation,
): ChangeNotifier {
  const listeners = new Set<() => void>();
  let timer: ReturnType<typeof setTimeout> | undefined;

  function tellWhenQuiet(): void {
    clearTimeout(timer);
    timer = setTimeout(() => {
      if (calculation.isRunning()) return tellWhenQuiet();
      for (const listener of [...listeners]) listener();
    }, QUIET_MS);
  }

  const watch = commands.onCommandExecuted(({ id }) => {
    if (listeners.size > 0 && OF_VALUES.test(id)) tellWhenQuiet();
  });
  return {
    listen(listener) {
      // Two callers may hand over the same function; each has its own stop.
      const own = () => listener();
      listeners.add(own);
      return () => listeners.delete(own);
    },
    dispose() {
      clearTimeout(timer);
      watch.dispose();
    },
  };
}
