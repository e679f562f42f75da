/** The working of the selected cell: every call of its formula, step by step, with the way to each cell that it reads. */
import { laidOut, laidOutPlan, layoutGrid } from "../../../functions/working/native/laid-out.js";
import {
  type CallSteps,
  isAboutItem,
  repeatedCell,
  type WorkingBlock,
  workingOf,
} from "../../../functions/working/text/working-of.js";
import { rangePlace } from "../../../src/plans/addresses.js";
import type { FormulaTree } from "../../../functions/working/lines/call-tree.js";
import { firstCell } from "../../formula-reading/cell-reading.js";
import { type CellTrail, readTrail } from "../../formula-reading/cell-origin.js";
import type { ReadWorking } from "../../formula-reading/read-working.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { shownValue } from "../head/cell-answer-text.js";
import { button, code, element } from "../parts/element.js";
import { FOLD, keepFolds } from "../parts/kept-list.js";
import { latestOnly } from "../parts/latest.js";
import { formulaNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";
import { originSection } from "./origin-section.js";
import { workingRow } from "./working-row.js";

const said = words.working;

export interface WorkingView {
  readonly element: HTMLElement;
  /** Reads the cell at the top left of the selection anew. */
  show(selected: CellRange): Promise<void>;
}

export interface WorkingViewOptions {
  readonly host: Host;
  /** Puts the cell's working among those of the report. */
  readonly report: (cell: CellRange) => void;
  readonly failed: (error: unknown) => void;
}

/** Blocks that stand open from the start; a whole feed has one for every row. */
const FEW_BLOCKS = 2;

export function workingView({ host, report, failed }: WorkingViewOptions): WorkingView {
  const heading = element("h2", { class: "feed-heading" }, said.title);
  const where = element("p", { class: "feed-quiet" });
  const calls = element("div", { class: "feed-workings" });
  const outcome = element("p", { class: "feed-outcome", role: "status" });
  const actions = element("div", { class: "feed-actions" });
  const view = element("div", {}, heading, where, calls, actions, outcome);
  const newest = latestOnly();
  /** The cell that a layout took the user to: what was said of it stays while it is selected. */
  let sentTo = "";
  /** The cell whose working is shown. */
  let shownOf = "";

  async function show(selected: CellRange): Promise<void> {
    const isNewest = newest();
    const trail = await readTrail(host, selected);
    if (!isNewest()) return;
    const cell = rangeText(firstCell(selected));
    if (cell !== sentTo) outcome.textContent = "";
    where.textContent = placeTold(trail, cell);
    const sections = sectionsOf(trail);
    const fill = () => {
      calls.replaceChildren(...sections);
    };
    // Of the same cell, calculated again, it stays as its reader had it.
    const isSame = cell === shownOf;
    shownOf = cell;
    if (isSame) keepFolds(calls, fill);
    else fill();
    actions.replaceChildren(...(trail.end ? actionsOf(trail.end) : []));
  }

  function sectionsOf({ origins, end }: CellTrail): HTMLElement[] {
    const before = origins.map((origin) => originSection(origin, host, failed));
    if (!end) return before;
    const { at, item, row, tree } = end;
    const head =
      origins.length === 0
        ? []
        : [element("p", { class: "feed-quiet" }, callPlaceTold(end, rangeText(at)))];
    const steps = workingOf(tree, { number: formulaNumber, row });
    return [...before, ...head, ...steps.map((each) => callSection(each, item, host, failed))];
  }

  function actionsOf({ at, tree, row }: ReadWorking): HTMLElement[] {
    return [
      button(said.layOut, () => {
        layOut(tree, row).catch(failed);
      }),
      button(said.layOutBeside, () => {
        layOutBeside(tree, row).catch(failed);
      }),
      button(said.toReport, () => {
        report(at);
        outcome.textContent = said.inReport(rangeText(at));
      }),
    ];
  }

  async function layOut(tree: FormulaTree, row: number): Promise<void> {
    const laid = laidOutPlan(tree, row);
    if (!laid.ok) {
      outcome.textContent = said.notLaidOut(laid.why);
      return;
    }
    const { sheets } = await host.insert(laid.plan);
    const [sheet = ""] = Object.values(sheets);
    await send({ sheet, address: "A1" }, said.laidOut(sheet));
  }

  /** Right of everything that the cell's sheet holds, so that nothing is overwritten. */
  async function layOutBeside(tree: FormulaTree, row: number): Promise<void> {
    const { sheet } = tree.at;
    const { right } = rangePlace((await host.used(sheet)).address);
    const laid = laidOut(tree, { left: right + 2, top: 1 }, row);
    if (!laid.ok) {
      outcome.textContent = said.notLaidOut(laid.why);
      return;
    }
    await host.write({ sheet, address: laid.range }, layoutGrid(laid));
    const [first = ""] = laid.range.split(":");
    await send({ sheet, address: first }, said.laidOutBeside(`${sheet}!${laid.range}`));
  }

  async function send(to: CellRange, text: string): Promise<void> {
    sentTo = rangeText(to);
    outcome.textContent = text;
    await host.goTo(to);
    outcome.textContent = text;
  }

  return { element: view, show };
}

function placeTold({ origins, end }: CellTrail, cell: string): string {
  if (origins.length > 0) return said.from(cell);
  return end ? callPlaceTold(end, cell) : said.nothing(cell);
}

function callPlaceTold({ at, anchor, item, tree }: ReadWorking, cell: string): string {
  if (item === undefined) return said.of(cell);
  const typed = typedIn(tree, anchor, at);
  const told = said.spilled(cell, rangeText(anchor));
  return typed ? `${told} ${said.asTyped(rangeText(typed))}` : told;
}

/** Where a cell of a spill was typed, if it repeats one. */
function typedIn(tree: FormulaTree, anchor: CellRange, at: CellRange): CellRange | undefined {
  const first = rangePlace(anchor.address);
  const { top, left } = rangePlace(at.address);
  return repeatedCell(tree, top - first.top, left - first.left);
}

function callSection(
  { text, depth, outcome, blocks, caveats, kind }: CallSteps,
  item: string | undefined,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  const result = outcome.ok
    ? shownValue(outcome.value, outcome.unit)
    : { text: `${outcome.code} ${outcome.message}`, full: outcome.message };
  const few = blocks.length <= FEW_BLOCKS;
  return element(
    "section",
    { class: "feed-working" },
    element("h3", { class: "feed-group-heading" }, code(text)),
    element(
      "p",
      {
        class: outcome.ok ? "feed-result" : "feed-refused",
        title: result.full,
      },
      outcome.ok ? said.gives(result.text) : result.text,
    ),
    depth > 0 ? element("p", { class: "feed-quiet" }, said.inner) : undefined,
    kind === "solved" ? element("p", { class: "feed-quiet" }, said.solved) : undefined,
    ...caveats.map((note) => element("p", { class: "feed-note" }, words.answer.note(note))),
    ...blocks.map((block) =>
      blockDetails(
        block,
        few || (item !== undefined && isAboutItem(block.title, item)),
        host,
        failed,
      ),
    ),
  );
}

function blockDetails(
  { title, rows }: WorkingBlock,
  open: boolean,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  return element(
    "details",
    { class: "feed-block", open, [FOLD]: title },
    element("summary", {}, title === "" ? said.choices : title),
    element("ol", { class: "feed-steps" }, ...rows.map((row) => workingRow(row, host, failed))),
  );
}
