/**
 * Draws an edit twice: what was typed, and what it came to. The spreadsheet by itself also draws while it calculates,
 * which shows nothing new and holds the calculation up.
 */
import type { Spreadsheet } from "../spreadsheet.js";

/** Results change what conditional formats paint a moment later; both are drawn at once. */
const SOON_MS = 20;

/** @returns its stop */
export function drawOnceCalculated({
  vendor,
  injector,
  workbook,
  calculation,
}: Spreadsheet): () => void {
  const unitId = workbook.getId();
  const drawing = () => injector.get(vendor.IRenderManagerService).getRenderById(unitId);
  let timer: ReturnType<typeof setTimeout> | undefined;

  function drawSoon(): void {
    clearTimeout(timer);
    timer = setTimeout(
      () => (calculation.isRunning() ? drawSoon() : drawing()?.activate()),
      SOON_MS,
    );
  }

  const watch = injector.get(vendor.ICommandService).onCommandExecuted(({ id }) => {
    if (id !== "formula.mutation.set-formula-calculation-start") return;
    drawing()?.deactivate();
    drawSoon();
  });
  return () => {
    clearTimeout(timer);
    watch.dispose();
  };
}
