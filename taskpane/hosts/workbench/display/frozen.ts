/**
 * Frozen rows and columns leave room for what scrolls under them, however small the window. The workbook keeps what is
 * frozen in it: in a small window less of it is shown frozen.
 */
import type { IFreeze, Worksheet } from "@univerjs/core";
import type { Spreadsheet } from "../spreadsheet.js";

export interface FrozenLines {
  /** Runs something that reads the workbook as it is to be kept, not as it fits the window. */
  asKept<Result>(run: () => Result): Result;
  dispose(): void;
}

/** Goes with a change that only fits what is shown to the window: the workbook is as it was. */
export const FITS_WINDOW = "fitsWindow";

/** Parts of the room that frozen lines may take. */
const MOST = { rows: 0.5, columns: 0.6 } as const;
/** Around the cells: the line of the formula, the headings of rows and columns, the tabs. */
const AROUND = { height: 92, width: 46 } as const;

const SET_FROZEN = "sheet.mutation.set-frozen";
/** After these, other lines are shown or they have another size. */
const SHOWN_ANEW =
  /^sheet\.(operation\.set-(worksheet-active|zoom-ratio)|mutation\.set-worksheet-(row-height|col-width))/;

export function fitFrozenLines(
  { vendor, injector, workbook }: Spreadsheet,
  container: HTMLElement,
): FrozenLines {
  const commands = injector.get(vendor.ICommandService);
  /** The whole freeze of sheets of which less is shown frozen. */
  const kept = new Map<Worksheet, IFreeze>();

  function fit(): void {
    const { clientWidth, clientHeight } = container;
    if (clientWidth === 0 || clientHeight === 0) return;
    const sheet = workbook.getActiveSheet().getSheet();
    const shown = sheet.getFreeze();
    const whole = kept.get(sheet) ?? shown;
    const zoom = sheet.getZoomRatio();
    const fitted = fittedFreeze(whole, {
      height: (clientHeight - AROUND.height) / zoom,
      width: (clientWidth - AROUND.width) / zoom,
      heightOf: (row) => sheet.getRowHeight(row),
      widthOf: (column) => sheet.getColumnWidth(column),
    });
    if (isSame(fitted, whole)) kept.delete(sheet);
    else kept.set(sheet, whole);
    if (isSame(fitted, shown)) return;
    commands.syncExecuteCommand(
      SET_FROZEN,
      { unitId: workbook.getId(), subUnitId: sheet.getSheetId(), ...fitted },
      { onlyLocal: true, [FITS_WINDOW]: true },
    );
  }

  const sizes = new ResizeObserver(fit);
  sizes.observe(container);
  const watch = commands.onCommandExecuted(({ id, params }, options) => {
    if (id === SET_FROZEN && !options?.[FITS_WINDOW]) {
      const { subUnitId } = params as { readonly subUnitId: string };
      for (const sheet of kept.keys()) if (sheet.getSheetId() === subUnitId) kept.delete(sheet);
      fit();
    } else if (SHOWN_ANEW.test(id)) fit();
  });
  return {
    asKept(run) {
      const shown = [...kept].map(([sheet, whole]) => {
        const config = sheet.getConfig();
        const fitted = config.freeze;
        config.freeze = whole;
        return () => (config.freeze = fitted);
      });
      try {
        return run();
      } finally {
        for (const back of shown) back();
      }
    },
    dispose() {
      sizes.disconnect();
      watch.dispose();
    },
  };
}

export interface SheetRoom {
  readonly height: number;
  readonly width: number;
  readonly heightOf: (row: number) => number;
  readonly widthOf: (column: number) => number;
}

/** As many of the frozen lines, from the first on, as leave room for what scrolls. */
export function fittedFreeze(whole: IFreeze, room: SheetRoom): IFreeze {
  const { startRow, startColumn, ySplit, xSplit } = whole;
  const rows = thatFit(startRow - ySplit, ySplit, room.heightOf, MOST.rows * room.height);
  const columns = thatFit(startColumn - xSplit, xSplit, room.widthOf, MOST.columns * room.width);
  return {
    ySplit: rows,
    xSplit: columns,
    startRow: rows === 0 ? -1 : startRow - ySplit + rows,
    startColumn: columns === 0 ? -1 : startColumn - xSplit + columns,
  };
}

function thatFit(first: number, count: number, size: (line: number) => number, room: number) {
  let [fit, taken] = [0, 0];
  while (fit < count && taken + size(first + fit) <= room) {
    taken += size(first + fit);
    fit += 1;
  }
  return fit;
}

function isSame(one: IFreeze, other: IFreeze): boolean {
  return one.ySplit === other.ySplit && one.xSplit === other.xSplit;
}
