/** How the Excel at hand writes formulas, learned from what is read of it anyway: no request is made for it. */
import {
  type FormulaPair,
  listSeparatorIn,
  localPart,
  type Separators,
  separatorsWith,
  withSeparators,
} from "../local-formula.js";

/** Cells that are shown together: the selected one, and those that it comes from. */
const MOST_PAIRS = 8;

export class LocalFormulas {
  private separators: Separators | undefined;
  /** The newest first. */
  private pairs: readonly FormulaPair[] = [];

  /**
   * Loads what is still to be learned, beside what is read anyway.
   * @param cell Whose formula is to be known as this Excel writes it.
   * @returns what takes it in, once it has come.
   */
  learnWith(context: Excel.RequestContext, cell: Excel.Range | undefined): () => void {
    const { application } = context.workbook;
    const isNew = this.separators === undefined;
    if (isNew) application.load("decimalSeparator");
    cell?.load("formulas,formulasLocal");
    return () => {
      if (isNew) this.separators = separatorsWith(application.decimalSeparator);
      if (cell) this.remember(cell);
    };
  }

  /** A formula or a part of one, en-US, as this Excel writes it. */
  shown(formula: string): string {
    for (const pair of this.pairs) {
      const local = localPart(formula, pair);
      if (local !== undefined) return local;
    }
    return this.separators ? withSeparators(formula, this.separators) : formula;
  }

  private remember({ formulas, formulasLocal }: Excel.Range): void {
    const [formula, local] = [String(formulas[0]?.[0]), String(formulasLocal[0]?.[0])];
    if (!formula.startsWith("=")) return;
    const pair = { formula, local };
    const others = this.pairs.filter((one) => one.formula !== formula);
    this.pairs = [pair, ...others].slice(0, MOST_PAIRS);
    const list = listSeparatorIn(pair);
    if (this.separators && list !== undefined) this.separators = { ...this.separators, list };
  }
}
