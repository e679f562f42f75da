/**
 * In what order the workbench calculates what reads a spill. The spreadsheet by itself lets only what reads a spill's
 * first cell wait for it; it calculates all others a second time, and what reads those not even then. So a formula here
 * is known by every cell that it reached last, and the second calculation is left to spills that reach others now.
 */
import type { Injector, IRange, Nullable } from "@univerjs/core";

type FormulaEngine = typeof import("@univerjs/engine-formula");

/** What is taken from the spreadsheet's packages; handed in, so that this file loads without them. */
export type SpillOrderParts = Pick<
  FormulaEngine,
  "FormulaDataModel" | "ICalculateFormulaService" | "IFormulaDependencyGenerator"
>;

/** Of the spreadsheet's own classes: a formula as others depend on it. */
interface FormulaNode {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly row: number;
  readonly column: number;
  toRTreeItem(): { unitId: string; sheetId: string; range: IRange }[];
}

type Making = (...args: never[]) => FormulaNode;

interface Generator {
  _createFDtree: Making;
  _createVirtualFDtree: Making;
}

/** By workbook, sheet, row and column of the first cell. */
type Spills = Record<string, Nullable<Record<string, Nullable<SheetSpills>>>>;
type SheetSpills = Record<number, Record<number, IRange>>;

interface Calculator {
  _getArrayFormulaDirtyRangeAndExcludedRange(spills: Spills, features: unknown): unknown;
}

/** To be called once the engine's services exist, which is when the first workbook is ready. */
export function orderBySpills(parts: SpillOrderParts, injector: Injector): void {
  const model = injector.get(parts.FormulaDataModel);
  const generator = injector.get(parts.IFormulaDependencyGenerator) as unknown as Generator;
  const calculator = injector.get(parts.ICalculateFormulaService) as unknown as Calculator;
  const reached = (unitId: string, sheetId: string, row: number, column: number) =>
    (model.getArrayFormulaRange() as Spills)[unitId]?.[sheetId]?.[row]?.[column];

  for (const name of ["_createFDtree", "_createVirtualFDtree"] as const) {
    const make = generator[name].bind(generator);
    generator[name] = (...args) => {
      const node = make(...args);
      node.toRTreeItem = () => {
        const { unitId, subUnitId, row, column } = node;
        const own = { startRow: row, endRow: row, startColumn: column, endColumn: column };
        const range = reached(unitId, subUnitId, row, column) ?? own;
        return [{ unitId, sheetId: subUnitId, range }];
      };
      return node;
    };
  }

  const dirtied = calculator._getArrayFormulaDirtyRangeAndExcludedRange.bind(calculator);
  calculator._getArrayFormulaDirtyRangeAndExcludedRange = (spills, features) =>
    dirtied(changed(spills, reached), features);
}

function changed(
  spills: Spills,
  before: (unitId: string, sheetId: string, row: number, column: number) => IRange | undefined,
): Spills {
  const found: Spills = {};
  for (const [unitId, sheets] of Object.entries(spills))
    for (const [sheetId, rows] of Object.entries(sheets ?? {}))
      for (const [row, columns] of Object.entries(rows ?? {}))
        for (const [column, range] of Object.entries(columns)) {
          if (isSame(range, before(unitId, sheetId, Number(row), Number(column)))) continue;
          const sheet = ((found[unitId] ??= {})[sheetId] ??= {});
          (sheet[Number(row)] ??= {})[Number(column)] = range;
        }
  return found;
}

function isSame(one: IRange, other: IRange | undefined): boolean {
  return (
    one.startRow === other?.startRow &&
    one.startColumn === other.startColumn &&
    one.endRow === other.endRow &&
    one.endColumn === other.endColumn
  );
}
