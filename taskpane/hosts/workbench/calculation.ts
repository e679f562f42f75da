/**
 * When the workbench is calculated. Where a spill shrinks, the spreadsheet leaves what reads the cells that it vacated
 * as it was until the next edit: an item whose name was cleared would go on being solved. So what reads them is
 * calculated once more, and that again where spills shrink by it.
 */
import type { ICommandService, IRange } from "@univerjs/core";
import type { FormulaCalculationSessionService } from "@univerjs/sheets-formula";

export interface Calculation {
  /** Resolves when nothing is left to be calculated. */
  settled(): Promise<void>;
  isRunning(): boolean;
}

/** A calculation that takes longer than this is a fault. */
const LONGEST_MS = 60_000;

/** Spills that shrink more often than this read each other in a circle, and there is no end to them. */
const MOST_PASSES = 8;

export function watchCalculation(
  commands: ICommandService,
  session: FormulaCalculationSessionService,
): Calculation {
  let before: readonly Spill[] = [];
  let passes = 0;
  /** The calculation in which a spill shrank last; another one follows it. */
  let shrankIn = -1;
  commands.onCommandExecuted(({ id, params }) => {
    if (id !== "formula.mutation.set-array-formula-data") return;
    const now = spillsOf((params as SpillData).arrayFormulaRange);
    const shrunk = before.filter((spill) => hasShrunk(spill, now));
    before = now;
    passes = shrunk.length === 0 ? 0 : passes + 1;
    if (passes === 0 || passes > MOST_PASSES) return;
    shrankIn = session.state.id;
    // Queued as an edit is, so that neither displaces the other.
    void commands.executeCommand(
      "formula.mutation.set-trigger-formula-calculation-start",
      { ...NOTHING_DIRTY, dirtyRanges: shrunk },
      { onlyLocal: true },
    );
  });
  const isAwaited = () => session.state.id === shrankIn;
  return {
    async settled() {
      do await session.waitForLatestApplied(LONGEST_MS);
      while (isAwaited());
    },
    isRunning() {
      const { started, resultApplied, stopped } = session.state;
      return isAwaited() || (started && !resultApplied && !stopped);
    },
  };
}

const NOTHING_DIRTY = {
  dirtyNameMap: {},
  dirtyDefinedNameMap: {},
  dirtyUnitFeatureMap: {},
  dirtyUnitOtherFormulaMap: {},
  clearDependencyTreeCache: {},
};

/** By workbook, sheet, row and column. */
interface SpillData {
  readonly arrayFormulaRange: By<By<By<By<IRange>>>>;
}
type By<Value> = Readonly<Record<string, Value>>;

interface Spill {
  readonly unitId: string;
  readonly sheetId: string;
  readonly range: IRange;
}

function spillsOf(data: SpillData["arrayFormulaRange"]): readonly Spill[] {
  return Object.entries(data).flatMap(([unitId, sheets]) =>
    Object.entries(sheets).flatMap(([sheetId, rows]) =>
      Object.values(rows)
        .flatMap((columns) => Object.values(columns))
        .map((range) => ({ unitId, sheetId, range: { ...range } })),
    ),
  );
}

/** Whether it reached a cell that no spill from its first cell reaches now. */
function hasShrunk({ sheetId, range }: Spill, now: readonly Spill[]): boolean {
  const reached = now.find(
    (spill) =>
      spill.sheetId === sheetId &&
      spill.range.startRow === range.startRow &&
      spill.range.startColumn === range.startColumn,
  )?.range ?? { endRow: range.startRow, endColumn: range.startColumn };
  return reached.endRow < range.endRow || reached.endColumn < range.endColumn;
}
