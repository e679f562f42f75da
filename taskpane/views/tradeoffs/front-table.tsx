/** The front as a table, the feed as it is above it: sorted by any column, and the chosen option told by its button. */
import { useState } from "preact/hooks";
import type { Objective } from "../../../src/tradeoffs/objectives.js";
import type { FrontPoint } from "../../../src/tradeoffs/unbeaten.js";
import { figureText, shownFigure } from "../../tradeoffs/objective-figures.js";
import type { Figures } from "../../tradeoffs/search-messages.js";
import { tradeWords as said } from "../../words/trade-words.js";
import type { ResultProps } from "./result-props.js";

/** A longer one is no help in a pane. */
const MOST_ROWS = 200;

interface Sorted {
  /** Place among the objectives; -1 by the option's number. */
  readonly by: number;
  readonly isFalling: boolean;
}

export function FrontTable({ job, result, chosen, choose, nameOf }: ResultProps) {
  const { objectives } = job;
  const { front, present } = result;
  const [sorted, sort] = useState<Sorted>({ by: 0, isFalling: false });
  const rows = inOrder(front, objectives, sorted).slice(0, MOST_ROWS);
  const heading = (by: number, text: string) => (
    <th
      key={by}
      scope="col"
      aria-sort={sorted.by === by ? (sorted.isFalling ? "descending" : "ascending") : undefined}
    >
      <button
        type="button"
        class="feed-link"
        onClick={() => sort({ by, isFalling: sorted.by === by && !sorted.isFalling })}
      >
        {text}
      </button>
    </th>
  );
  return (
    <div class="feed-wide feed-front-place">
      <table class="feed-table feed-front">
        <caption>{said.caption(rows.length, front.length)}</caption>
        <thead>
          <tr>
            {heading(-1, said.option)}
            {objectives.map((objective, at) => heading(at, said.objectives[objective]))}
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">{said.now}</th>
            <FigureCells objectives={objectives} figures={present} />
          </tr>
          {rows.map(({ index, values }) => (
            <tr key={index}>
              <th scope="row">
                <button
                  type="button"
                  class="feed-link"
                  aria-pressed={index === chosen}
                  onClick={() => choose(index)}
                >
                  {nameOf(index)}
                </button>
              </th>
              <FigureCells objectives={objectives} figures={values} />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface FigureCellsProps {
  readonly objectives: readonly Objective[];
  readonly figures: Figures;
}

function FigureCells({ objectives, figures }: FigureCellsProps) {
  return (
    <>
      {objectives.map((objective, at) => (
        <td key={objective}>{figureText(objective, figures[at])}</td>
      ))}
    </>
  );
}

function inOrder(
  front: readonly FrontPoint[],
  objectives: readonly Objective[],
  { by, isFalling }: Sorted,
): readonly FrontPoint[] {
  const objective = objectives[by];
  const key = ({ index, values }: FrontPoint) =>
    objective === undefined ? index : shownFigure(objective, values[by]!);
  const rising = [...front].sort((one, other) => key(one) - key(other));
  return isFalling ? rising.reverse() : rising;
}
