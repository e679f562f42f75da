/** The line above the views: what the selected cell's call gives, or why it was refused. */
import { readCell } from "../../formula-reading/cell-reading.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { answerLine, spokenLine } from "./answer-line.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { type AnswerLine, answerLines } from "./cell-answer-text.js";
import { element } from "../parts/element.js";
import { latestOnly } from "../parts/latest.js";
import { words } from "../../words/words.js";

export interface CellAnswer {
  readonly element: HTMLElement;
  /** Reads the cell anew; gives what to say of it, "" where it holds no call. */
  show(selected: CellRange): Promise<string>;
}

export function cellAnswer(host: Host): CellAnswer {
  const place = element("p", { class: "feed-answer-place" });
  const lines = element("div", { class: "feed-answer-lines" });
  const box = element(
    "div",
    { class: "feed-answer", role: "group", "aria-label": words.answer.name },
    place,
    lines,
  );
  const newest = latestOnly();
  return {
    element: box,
    async show(selected) {
      const isNewest = newest();
      const reading = await readCell(host, selected);
      if (!isNewest()) return "";
      const said = answerLines(reading, host.namespace);
      place.textContent = rangeText(reading.at);
      lines.replaceChildren(...said.map(answerLine));
      return spoken(rangeText(reading.at), said);
    },
  };
}

function spoken(cell: string, lines: readonly AnswerLine[]): string {
  const worth = lines.some(({ tone }) => tone !== "quiet");
  return worth ? [cell, ...lines.map(spokenLine)].join(". ") : "";
}
