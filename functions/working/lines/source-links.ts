/** Givens that stand in a feed table or among what is asked for, or were solved for one of its items. */
import type { FeedItem } from "../../../src/network/feed-item.js";
import type { Working } from "../../downfeed.js";
import type { CallAnswer, UsedArgument } from "./call-answer.js";
import { itemPlace, tableFigure } from "./feed-links.js";
import type { GivenLink } from "./working-lines.js";

/** Links of each working's givens, by field. */
export function sourceLinks(answer: CallAnswer): readonly Readonly<Record<string, GivenLink>>[] {
  const asked = answer.used.find(({ key }) => key === "askedFor");
  return answer.workings.map((working) =>
    Object.fromEntries([
      ...inTable(answer, working),
      ...inAsked(asked, working),
      ...solvedFor(answer, working),
    ]),
  );
}

/** Two numbers are one where 12 digits agree: a header's unit may have been converted. */
function isSame(one: unknown, other: number): boolean {
  return typeof one === "number" && Math.abs(one - other) <= 1e-12 * Math.abs(other);
}

/** A figure that the table has not as it counts, such as the end of a window that a tolerance widens, is left. */
function inTable(answer: CallAnswer, working: Working): [string, GivenLink][] {
  return Object.entries(working.inTable ?? {}).flatMap(([field, { item, figure }]) => {
    const found = tableFigure(answer, item, figure as keyof FeedItem);
    if (!found || !isSame(working.values[field], found.value)) return [];
    const { native, reads } = found;
    return [[field, { kind: "native", native, reads, told: [] }]];
  });
}

function inAsked(asked: UsedArgument | undefined, working: Working): [string, GivenLink][] {
  if (!asked || !working.inAsked) return [];
  const { cells, width } = asked;
  return Object.entries(working.inAsked).flatMap(([field, label]) => {
    const row = cells.findIndex(
      ({ value }, index) =>
        index % width === 0 && typeof value === "string" && isLabel(value, label),
    );
    const cell = row < 0 ? undefined : cells[row + 1];
    if (cell === undefined || cell.value !== working.values[field]) return [];
    return [[field, { kind: "linked", origin: cell.origin, perUnit: 1 }]];
  });
}

function solvedFor(answer: CallAnswer, working: Working): [string, GivenLink][] {
  return Object.entries(working.solvedFor ?? {}).flatMap(([field, { table, item }]) => {
    const told = working.frozen?.[field];
    const place = itemPlace(answer, table, item);
    if (told === undefined || !place) return [];
    return [[field, { kind: "frozen", told, reads: [place] }]];
  });
}

function isLabel(text: string, label: string): boolean {
  return text.trim().toLowerCase() === label.toLowerCase();
}
