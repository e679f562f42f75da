/** The working of the selected cell: every call of its formula, step by step, with the way to each cell that it reads. */
import { useState } from "preact/hooks";
import type { FormulaTree } from "../../../functions/working/lines/call-tree.js";
import { laidOut, laidOutPlan, layoutGrid } from "../../../functions/working/native/laid-out.js";
import {
  type CallSteps,
  isAboutItem,
  repeatedCell,
  type WorkingBlock,
  workingOf,
} from "../../../functions/working/text/working-of.js";
import { rangePlace } from "../../../src/plans/addresses.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { type CellTrail, readTrail } from "../../formula-reading/cell-origin.js";
import type { CellHost, CellReading } from "../../formula-reading/cell-reading.js";
import type { ReadWorking } from "../../formula-reading/read-working.js";
import type { CellRange } from "../../hosts/host.js";
import { formulaNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";
import { shownValue } from "../head/cell-answer-text.js";
import { Button } from "../parts/button.js";
import { Code } from "../parts/code.js";
import { latestOnly } from "../parts/latest.js";
import { drawInto, type Tools, useTools } from "../parts/tools.js";
import { OriginSection } from "./origin-section.js";
import { WorkingRow } from "./working-row.js";

const said = words.working;

export interface WorkingView {
  readonly element: HTMLElement;
  /** Shows the working of the selected cell, and of the cells that it comes from. */
  show(selected: CellReading): Promise<void>;
}

export interface WorkingViewOptions extends Tools {
  readonly reading: CellHost;
  /** Puts the cell's working among those of the report. */
  readonly report: (cell: CellRange) => void;
}

/** Blocks that stand open from the start; a whole feed has one for every row. */
const FEW_BLOCKS = 2;

export function workingView(options: WorkingViewOptions): WorkingView {
  const place = document.createElement("div");
  const newest = latestOnly();
  const draw = (cell: string, trail?: CellTrail) =>
    drawInto(place, options, <Working cell={cell} trail={trail} report={options.report} />);
  draw("");
  return {
    element: place,
    async show(selected) {
      const isNewest = newest();
      const trail = await readTrail(options.reading, selected);
      if (isNewest()) draw(rangeText(selected.cell.at), trail);
    },
  };
}

interface WorkingProps extends Pick<WorkingViewOptions, "report"> {
  /** The selected one. */
  readonly cell: string;
  /** The way from it to the cell whose calls are shown; not there before the first is read. */
  readonly trail: CellTrail | undefined;
}

function Working({ cell, trail, report }: WorkingProps) {
  const { host, failed } = useTools();
  /** What came of a command: told while its cell is selected, or the one that a layout led to. */
  const [outcome, tell] = useState({ at: "", text: "" });

  async function layOut(tree: FormulaTree, row: number): Promise<void> {
    const laid = laidOutPlan(tree, row);
    if (!laid.ok) return tell({ at: cell, text: said.notLaidOut(laid.why) });
    const { sheets } = await host.insert(laid.plan);
    const [sheet = ""] = Object.values(sheets);
    await send({ sheet, address: "A1" }, said.laidOut(sheet));
  }

  /** Right of everything that the cell's sheet holds, so that nothing is overwritten. */
  async function layOutBeside(tree: FormulaTree, row: number): Promise<void> {
    const { sheet } = tree.at;
    const { right } = rangePlace((await host.used(sheet)).address);
    const laid = laidOut(tree, { left: right + 2, top: 1 }, row);
    if (!laid.ok) return tell({ at: cell, text: said.notLaidOut(laid.why) });
    await host.write({ sheet, address: laid.range }, layoutGrid(laid));
    const [first = ""] = laid.range.split(":");
    await send({ sheet, address: first }, said.laidOutBeside(`${sheet}!${laid.range}`));
  }

  async function send(to: CellRange, text: string): Promise<void> {
    tell({ at: rangeText(to), text });
    await host.goTo(to);
  }

  const { origins = [], end } = trail ?? {};
  return (
    <>
      <h2 class="feed-heading">{said.title}</h2>
      <p class="feed-quiet">{trail && placeTold(trail, cell)}</p>
      {/* Of the same cell, calculated again, it stays as its reader folded it. */}
      <div class="feed-workings" key={cell}>
        {origins.map((origin) => (
          <OriginSection key={rangeText(origin.at)} origin={origin} />
        ))}
        {end && origins.length > 0 && (
          <p class="feed-quiet">{callPlaceTold(end, rangeText(end.at))}</p>
        )}
        {end &&
          workingOf(end.tree, { number: formulaNumber, row: end.row }).map((steps, index) => (
            <CallSection key={index} steps={steps} item={end.item} />
          ))}
      </div>
      {end && (
        <div class="feed-actions">
          <Button press={() => void layOut(end.tree, end.row).catch(failed)}>{said.layOut}</Button>
          <Button press={() => void layOutBeside(end.tree, end.row).catch(failed)}>
            {said.layOutBeside}
          </Button>
          <Button
            press={() => {
              report(end.at);
              tell({ at: cell, text: said.inReport(rangeText(end.at)) });
            }}
          >
            {said.toReport}
          </Button>
        </div>
      )}
      <p class="feed-outcome" role="status">
        {outcome.at === cell && outcome.text}
      </p>
    </>
  );
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

interface CallSectionProps {
  readonly steps: CallSteps;
  readonly item: string | undefined;
}

function CallSection({ steps, item }: CallSectionProps) {
  const { text, depth, outcome, blocks, caveats, kind } = steps;
  const result = outcome.ok
    ? shownValue(outcome.value, outcome.unit)
    : { text: `${outcome.code} ${outcome.message}`, full: outcome.message };
  const isOpen = ({ title }: WorkingBlock) =>
    blocks.length <= FEW_BLOCKS || (item !== undefined && isAboutItem(title, item));
  return (
    <section class="feed-working">
      <h3 class="feed-group-heading">
        <Code text={text} />
      </h3>
      <p class={outcome.ok ? "feed-result" : "feed-refused"} title={result.full}>
        {outcome.ok ? said.gives(result.text) : result.text}
      </p>
      {depth > 0 && <p class="feed-quiet">{said.inner}</p>}
      {kind === "solved" && <p class="feed-quiet">{said.solved}</p>}
      {caveats.map((note) => (
        <p class="feed-note" key={note}>
          {words.answer.note(note)}
        </p>
      ))}
      {blocks.map((block) => (
        <details class="feed-block" key={block.title} open={isOpen(block)}>
          <summary>{block.title === "" ? said.choices : block.title}</summary>
          <ol class="feed-steps">
            {block.rows.map((row, index) => (
              <WorkingRow key={index} row={row} />
            ))}
          </ol>
        </details>
      ))}
    </section>
  );
}
