/** The budget on the sheet as real tables, for those who cannot see a painted grid. Follows every recalculation. */
import type { FoundBudget, ReadValue } from "../../budgets/reading/found-budget.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import type { Host } from "../../hosts/host.js";
import { element } from "../../views/parts/element.js";
import { workbenchWords as words } from "../../words/workbench-words.js";

/**
 * Shows the budget that the active sheet belongs to, or else the first, as the pane has read it.
 * @returns its stop
 */
export function showResults(root: HTMLElement, host: Host, store: WorkbookStore): () => void {
  let latest = 0;
  let read: FoundBudget | undefined;
  let shown: string | undefined;

  async function refresh(): Promise<void> {
    latest += 1;
    const own = latest;
    if (store.failure !== undefined) throw store.failure;
    const { sheet } = await host.selection();
    // A later refresh has overtaken this one.
    if (own !== latest || !store.search) return;
    const { budgets } = store.search;
    const budget = budgets.find((candidate) => sheetsOf(candidate).includes(sheet)) ?? budgets[0];
    // As it was read, whichever of its cells the selection went to.
    if (shown !== undefined && budget === read) return;
    read = budget;
    const tables = budget ? tablesOf(budget) : [];
    // Left alone when nothing differs, so that a reader in the middle of a table is not thrown out.
    const now = JSON.stringify(tables);
    if (now === shown) return;
    shown = now;
    root.replaceChildren(...(budget ? tables.map(resultsTable) : [nothing()]));
  }

  const update = () => {
    refresh().catch((error: unknown) => {
      root.replaceChildren(element("p", {}, words.unreadResults(String(error))));
    });
  };
  update();
  const stops = [store.subscribe(update), host.onSelection(update)];
  return () => stops.forEach((stop) => stop());
}

function nothing(): HTMLElement {
  return element("p", {}, words.noResults);
}

function sheetsOf({ ranges }: FoundBudget): string[] {
  return Object.values(ranges).flatMap((range) => range?.sheet ?? []);
}

interface ResultsTable {
  readonly caption: string;
  readonly values: readonly (readonly ReadValue[])[];
}

function tablesOf({ stem, ranges }: FoundBudget): ResultsTable[] {
  return Object.entries(words.results).flatMap(([part, title]) => {
    const range = ranges[part];
    return range ? [{ caption: `${stem}: ${title}`, values: range.values }] : [];
  });
}

/** First row and first column are headers; rows without a first cell are room for more items. */
function resultsTable({ caption, values }: ResultsTable): HTMLTableElement {
  const [headers = [], ...rows] = values;
  return element(
    "table",
    {},
    element("caption", {}, caption),
    element(
      "thead",
      {},
      element("tr", {}, ...headers.map((header) => element("th", { scope: "col" }, text(header)))),
    ),
    element("tbody", {}, ...rows.filter(([first]) => first !== "").map(row)),
  );
}

function row([first = "", ...rest]: readonly ReadValue[]): HTMLElement {
  return element(
    "tr",
    {},
    element("th", { scope: "row" }, text(first)),
    ...rest.map((value) => element("td", {}, text(value))),
  );
}

const NUMBERS = new Intl.NumberFormat(undefined, {
  maximumSignificantDigits: 5,
});

function text(value: ReadValue): string {
  if (typeof value === "number") return NUMBERS.format(value);
  return typeof value === "object" ? value.error : String(value);
}
