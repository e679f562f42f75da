/** The line above the views: what the selected cell's call gives, or why it was refused. */
import { render } from "preact";
import { rangeText } from "../../formula-reading/argument-text.js";
import type { Host } from "../../hosts/host.js";
import type { CellReading } from "../../formula-reading/cell-reading.js";
import { words } from "../../words/words.js";
import { AnswerLineText, spokenLine } from "./answer-line.js";
import { type AnswerLine, answerLines } from "./cell-answer-text.js";

export interface CellAnswer {
  readonly element: HTMLElement;
  /** Gives what to say of the cell, "" where it holds no call. */
  show(reading: CellReading): string;
}

export function cellAnswer(host: Pick<Host, "namespace" | "shownFormula">): CellAnswer {
  const place = document.createElement("div");
  const draw = (at: string, lines: readonly AnswerLine[]) =>
    render(<Answer at={at} lines={lines} />, place);
  draw("", []);
  return {
    element: place,
    show(reading) {
      const [cell, lines] = [
        rangeText(reading.cell.at),
        answerLines(reading, host.namespace, host.shownFormula),
      ];
      draw(cell, lines);
      return spoken(cell, lines);
    },
  };
}

interface AnswerProps {
  readonly at: string;
  readonly lines: readonly AnswerLine[];
}

function Answer({ at, lines }: AnswerProps) {
  return (
    <div class="feed-answer" role="group" aria-label={words.answer.name}>
      <p class="feed-answer-place">{at}</p>
      <div class="feed-answer-lines">
        {lines.map((line, index) => (
          <AnswerLineText key={index} line={line} />
        ))}
      </div>
    </div>
  );
}

function spoken(cell: string, lines: readonly AnswerLine[]): string {
  const worth = lines.some(({ tone }) => tone !== "quiet");
  return worth ? [cell, ...lines.map(spokenLine)].join(". ") : "";
}
