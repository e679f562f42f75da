/** The line above the views: what the selected cell's call gives, or why it was refused. */
import { render } from "preact";
import { rangeText } from "../../formula-reading/argument-text.js";
import { readCell } from "../../formula-reading/cell-reading.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { words } from "../../words/words.js";
import { latestOnly } from "../parts/latest.js";
import { AnswerLineText, spokenLine } from "./answer-line.js";
import { type AnswerLine, answerLines } from "./cell-answer-text.js";

export interface CellAnswer {
  readonly element: HTMLElement;
  /** Reads the cell anew; gives what to say of it, "" where it holds no call. */
  show(selected: CellRange): Promise<string>;
}

export function cellAnswer(host: Host): CellAnswer {
  const place = document.createElement("div");
  const newest = latestOnly();
  const draw = (at: string, lines: readonly AnswerLine[]) =>
    render(<Answer at={at} lines={lines} />, place);
  draw("", []);
  return {
    element: place,
    async show(selected) {
      const isNewest = newest();
      const reading = await readCell(host, selected);
      if (!isNewest()) return "";
      const [cell, lines] = [
        rangeText(reading.at),
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
