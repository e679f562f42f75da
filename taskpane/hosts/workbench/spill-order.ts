/**
 * In what order the workbench calculates what reads a spill. The spreadsheet by itself lets only what reads a spill's
 * first cell wait for it; it calculates all others a second time, and a spill that grows then is not followed any more.
 * So a formula here is known by every cell that it reached last, and what reads others is calculated again only where a
 * spill reaches others now, and so often as one does.
 */
import type { Injector, IRange, Nullable } from "@univerjs/core";

type FormulaEngine = typeof import("@univerjs/engine-formula");

/** What is taken from the spreadsheet's packages; handed in, so that this file loads without them. */
export type SpillOrderParts = Pick<
  FormulaEngine,
  "FormulaDataModel" | "ICalculateFormulaService" | "IFormulaDependencyGenerator"
>;

/** The spreadsheet's own node of its dependency tree: a formula as others depend on it. */
interface FormulaNode {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly row: number;
  readonly column: number;
  toRTreeItem(): { unitId: string; sheetId: string; range: IRange }[];
}

type Making = (...args: never[]) => FormulaNode;

interface DependencyGenerator {
  _createFDtree: Making;
  _createVirtualFDtree: Making;
}

/** By workbook, sheet, row and column of the first cell. */
type Spills = Record<string, Nullable<Record<string, Nullable<SheetSpills>>>>;
type SheetSpills = Record<number, Record<number, IRange>>;

interface Calculator {
  _executeStep(): Promise<true | undefined>;
  /** Undefined where it was stopped. */
  _apply(again?: boolean): Promise<{ readonly arrayFormulaRange: Spills } | undefined>;
  _getArrayFormulaDirtyRangeAndExcludedRange(
    spills: Spills,
    features: unknown,
  ): { readonly dirtyRanges: readonly unknown[]; readonly excludedCell: unknown };
  readonly _runtimeService: {
    getUnitArrayFormula(): Spills;
    getRuntimeFeatureRange(): unknown;
    clearArrayObjectCache(): void;
  };
  readonly _currentConfigService: {
    loadDirtyRangesAndExcludedCell(dirtyRanges: readonly unknown[], excludedCell: unknown): void;
  };
}

/** Spills that grow more often than this read each other in a circle, and there is no end to them. */
const MOST_ROUNDS = 8;

/** To be called once the engine's services exist, which is when the first workbook is ready. */
export function orderBySpills(parts: SpillOrderParts, injector: Injector): void {
  const model = injector.get(parts.FormulaDataModel);
  const generator = injector.get(
    parts.IFormulaDependencyGenerator,
  ) as unknown as DependencyGenerator;
  const calculator = injector.get(parts.ICalculateFormulaService) as unknown as Calculator;
  const { _runtimeService: runtime, _currentConfigService: config } = calculator;

  for (const name of ["_createFDtree", "_createVirtualFDtree"] as const) {
    const make = generator[name].bind(generator);
    generator[name] = (...args) => {
      const node = make(...args);
      node.toRTreeItem = () => {
        const { unitId, subUnitId: sheetId, row, column } = node;
        const own = { startRow: row, endRow: row, startColumn: column, endColumn: column };
        const place = [unitId, sheetId, row, column] as const;
        const ranges = [
          rangeAt(model.getArrayFormulaRange() as Spills, ...place) ?? own,
          rangeAt(runtime.getUnitArrayFormula(), ...place) ?? own,
        ];
        return ranges.map((range) => ({ unitId, sheetId, range }));
      };
      return node;
    };
  }

  calculator._executeStep = async () => {
    let before = copied(model.getArrayFormulaRange() as Spills);
    let state = await calculator._apply();
    let features: unknown = runtime.getRuntimeFeatureRange();
    for (let round = 0; state && round < MOST_ROUNDS; round++) {
      const spills = changed(state.arrayFormulaRange, before);
      const { dirtyRanges, excludedCell } = calculator._getArrayFormulaDirtyRangeAndExcludedRange(
        spills,
        features,
      );
      if (dirtyRanges.length === 0) break;
      before = copied(state.arrayFormulaRange, before);
      features = {};
      runtime.clearArrayObjectCache();
      config.loadDirtyRangesAndExcludedCell(dirtyRanges, excludedCell);
      state = await calculator._apply(true);
    }
    return state && true;
  };
}

type Place = readonly [unitId: string, sheetId: string, row: number, column: number];

function rangeAt(spills: Spills, ...[unitId, sheetId, row, column]: Place): IRange | undefined {
  return spills[unitId]?.[sheetId]?.[row]?.[column];
}

function* entriesOf(spills: Spills): Generator<readonly [Place, IRange]> {
  for (const [unitId, sheets] of Object.entries(spills))
    for (const [sheetId, rows] of Object.entries(sheets ?? {}))
      for (const [row, columns] of Object.entries(rows ?? {}))
        for (const [column, range] of Object.entries(columns))
          yield [[unitId, sheetId, Number(row), Number(column)], range];
}

function enter(spills: Spills, [unitId, sheetId, row, column]: Place, range: IRange): void {
  const sheet = ((spills[unitId] ??= {})[sheetId] ??= {});
  (sheet[row] ??= {})[column] = range;
}

/** A later one stands in the place of an earlier one. */
function copied(spills: Spills, onto: Spills = {}): Spills {
  for (const [place, range] of entriesOf(spills)) enter(onto, place, { ...range });
  return onto;
}

/** Spills that reach other cells than before. */
function changed(spills: Spills, before: Spills): Spills {
  const found: Spills = {};
  for (const [place, range] of entriesOf(spills))
    if (!isSame(range, rangeAt(before, ...place))) enter(found, place, range);
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
