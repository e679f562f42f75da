/** What is typed once for all of a budget: its document, what is solved, what is asked for, other figures, a day. */
import type { PlanCell, PlanValidation, SheetPlan } from "../../../src/plans/sheet-plan.js";
import { range, bareCell, headingRow, valueCell } from "../../../src/plans/sheet-builder.js";
import {
  LABELS,
  NOT_ASKED,
  type Requirement,
  REQUIREMENTS,
} from "../../../src/judgement/requirements.js";
import { enteredCell } from "../block.js";
import { ASKED_ROW, DOCUMENT_LINES, DOCUMENT_ROW, type Places, SOLVED_ROW } from "../places.js";
import { dayInputs } from "./day-sheet.js";
import { sheetPlan } from "./sheet.js";

/** What a sheet that shows one case asks for. */
export const SOLVED_CHOICES = [
  ["Loads", ["light", "nominal", "peak"]],
  ["Supply voltage", ["lowest", "nominal", "highest"]],
] as const;

export function inputsSheet(places: Places): SheetPlan {
  const { story, origin } = places.sample;
  const day = dayInputs(places);
  return sheetPlan(places, {
    key: "inputs",
    name: "Inputs",
    subtitle: `${story} ${origin}`.trim(),
    columnWidths: [290, 170, 110, 300, 90, 420],
    cells: [
      ...documentCells(places),
      ...solvedCells(),
      ...askedCells(places),
      ...otherCells(places),
      ...day.cells,
    ],
    validations: [...solvedValidations(), ...askedValidations(), ...day.validations],
  });
}

function documentCells({ sample: { document } }: Places): PlanCell[] {
  return [
    valueCell(0, DOCUMENT_ROW - 1, "Document", "heading"),
    ...DOCUMENT_LINES.flatMap(([key, label], index) => [
      valueCell(0, DOCUMENT_ROW + index, label, "label"),
      key === "fingerprint"
        ? bareCell(1, DOCUMENT_ROW + index, "resultText")
        : enteredCell(1, DOCUMENT_ROW + index, document[key], "inputText"),
    ]),
  ];
}

/** The case that Budget shows; every other sheet shows all cases. */
function solvedCells(): PlanCell[] {
  return [
    valueCell(0, SOLVED_ROW - 1, "What Budget shows", "heading"),
    ...SOLVED_CHOICES.flatMap(([label], index) => [
      valueCell(0, SOLVED_ROW + index, label, "label"),
      valueCell(1, SOLVED_ROW + index, "nominal", "inputText"),
    ]),
  ];
}

function solvedValidations(): PlanValidation[] {
  return SOLVED_CHOICES.map(([label, values], index) => ({
    kind: "list",
    values,
    range: range(1, SOLVED_ROW + index, 1, SOLVED_ROW + index),
    message: `${label}: one of ${values.join(", ")}`,
  }));
}

function askedCells({ sample: { asked } }: Places): PlanCell[] {
  return [
    valueCell(
      0,
      ASKED_ROW - 1,
      `What is asked for: a value, or "${NOT_ASKED}"; what stands empty is not determined`,
      "heading",
    ),
    ...headingRow(0, ASKED_ROW, ["Asked for", "Value", "Unit", "Citation"]),
    ...LABELS.flatMap((label, index) => {
      const row = ASKED_ROW + 1 + index;
      const { content, usual } = REQUIREMENTS[label];
      const entry = asked[label];
      const { value, citation } =
        typeof entry === "object" ? entry : { value: entry, citation: "" };
      const isFigure = content.holds === "figure";
      const isPart = isFigure && content.bound.includes("%");
      return [
        valueCell(
          0,
          row,
          label,
          "label",
          usual === "" ? {} : { note: `Usual, not a requirement: ${usual}` },
        ),
        enteredCell(
          1,
          row,
          value,
          isFigure ? "input" : "inputText",
          isPart ? { format: "0.0##%" } : {},
        ),
        valueCell(2, row, isFigure ? content.unit : "", "unit"),
        enteredCell(3, row, citation, "inputText"),
      ];
    }),
    ...[0, 1, 2, 3].map((column) => bareCell(column, ASKED_ROW + 1 + LABELS.length, "closing")),
  ];
}

function askedValidations(): PlanValidation[] {
  return LABELS.flatMap((label, index): PlanValidation[] => {
    const { content }: Requirement = REQUIREMENTS[label];
    if (content.holds === "text" || !content.words) return [];
    const values = [...content.words, NOT_ASKED];
    const row = ASKED_ROW + 1 + index;
    const at = range(1, row, 1, row);
    return content.holds === "word"
      ? [{ kind: "list", values, range: at, message: `${label}: one of ${values.join(", ")}` }]
      : [
          {
            kind: "figure",
            words: values,
            range: at,
            message: `${label}: ${content.bound}, or "${NOT_ASKED}"`,
          },
        ];
  });
}

function otherCells(places: Places): PlanCell[] {
  const { otherFigures = [] } = places.sample;
  const head = places.otherRow;
  if (otherFigures.length === 0) return [];
  return [
    ...headingRow(0, head, ["Other figures", "Value", "Unit", "Basis"]),
    ...otherFigures.flatMap(({ label, value, unit, basis, format }, index) => [
      valueCell(0, head + 1 + index, label, "label"),
      enteredCell(1, head + 1 + index, value, "input", format === undefined ? {} : { format }),
      valueCell(2, head + 1 + index, unit, "unit"),
      enteredCell(3, head + 1 + index, basis, "inputText"),
    ]),
  ];
}
