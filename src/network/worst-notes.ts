/** What a reader of a row's worst case should know beside its numbers. */
import { figure } from "../quantities/figures.js";
import type { Note } from "../quantities/steps.js";
import { type Breadth, canVary, MOST_FOR_EVERY_CORNER } from "./feed-corner.js";
import type { WorstRow } from "./feed-worst.js";

export function worstNotes(
  row: Omit<WorstRow, "notes">,
  breadth: Breadth,
): readonly Note[] {
  return [
    ...windowNotes(row),
    ...loadingNotes(row),
    ...basisNotes(row, breadth),
  ];
}

function windowNotes({
  item,
  lowestInputVoltage,
  highestInputVoltage,
}: Omit<WorstRow, "notes">): Note[] {
  if (item.kind === "supply") return [];
  const below = (item.lowestVoltage ?? -Infinity) - lowestInputVoltage;
  const above = highestInputVoltage - (item.highestVoltage ?? Infinity);
  return [
    ...(below > 0
      ? [
          note(
            "below-window",
            "lowestInputVoltage",
            `${figure(below)} V below its window`,
          ),
        ]
      : []),
    ...(above > 0
      ? [
          note(
            "above-window",
            "highestInputVoltage",
            `${figure(above)} V above its window`,
          ),
        ]
      : []),
  ];
}

function loadingNotes({ highestLoading }: Omit<WorstRow, "notes">): Note[] {
  if (highestLoading === undefined || highestLoading <= 1) return [];
  const text = `at ${figure(highestLoading)} of its rated current`;
  return [note("overloaded", "highestLoading", text)];
}

/** What the search took for granted. */
function basisNotes(
  { item }: Omit<WorstRow, "notes">,
  breadth: Breadth,
): Note[] {
  const notes: Note[] = [];
  if (canVary(item) && item.tolerance === undefined)
    notes.push(
      note(
        "no-tolerance",
        "lowestInputVoltage",
        "not determined beyond its nominal figures: no tolerance given",
      ),
    );
  if (
    item.kind === "supply" &&
    (item.lowestVoltage === undefined || item.highestVoltage === undefined)
  )
    notes.push(
      note(
        "no-supply-window",
        "lowestInputVoltage",
        "its window is not given in full: nominal voltage in its place",
      ),
    );
  if (item.kind === "supply" && breadth !== "every corner")
    notes.push(
      note(
        "not-every-corner",
        "lowestInputVoltage",
        `more than ${MOST_FOR_EVERY_CORNER} toleranced items or too many cases: tolerances ${breadth}`,
      ),
    );
  return notes;
}

function note(code: string, field: string, text: string): Note {
  return { code, field, text, cite: "definition" };
}
