/** What the rows of a budget are held against, beside its balance; `warnings/` reads it by its labels. */
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  area,
  call,
  firstOf,
  quoted,
  valueCell,
} from "../plans/sheet-builder.js";
import {
  type BandsAsked,
  FRAMEWORKS,
  touchFrameworks,
} from "../safety/touch-bands.js";
import { type BlockLine, lineCells } from "./block-line.js";
import {
  BALANCE_ROW,
  balanceAt,
  LIMIT_LABEL_COLUMN,
  LIMIT_UNIT_COLUMN,
  LIMIT_VALUE_COLUMN,
  limitAt,
  limitRows,
} from "./budget-layout.js";
import { COMMON_KEYS, type InputReach } from "./budget-scenario.js";

const WORDS = { unit: "", style: "resultText" } as const;
const VOLTS = { unit: "V", format: "0", style: "result" } as const;
const METRES = { unit: "m", format: "0", style: "result" } as const;

/** An input as a limit; what stands empty is not taken for 0. */
function entered(input: string): string {
  // By its length: one spreadsheet takes a 0 for equal to nothing.
  return `IF(LEN(${input})=0,"not entered",${input})`;
}

export function limitCells({ given }: InputReach): PlanCell[] {
  const [label, value, unit] = [
    LIMIT_LABEL_COLUMN,
    LIMIT_VALUE_COLUMN,
    LIMIT_UNIT_COLUMN,
  ];
  return [
    valueCell(label, BALANCE_ROW, "Limit", "tableHeading"),
    valueCell(value, BALANCE_ROW, "Value", "tableHeading"),
    valueCell(unit, BALANCE_ROW, "Unit", "tableHeading"),
    ...[
      ...shareLines(given),
      ...bandLines(given),
      ...otherLines(given),
    ].flatMap((line) => lineCells(line, label, value, unit)),
  ];
}

function shareLines(given: InputReach["given"]): BlockLine[] {
  const shown = { unit: "", style: "result" } as const;
  return [
    {
      row: limitRows.drop,
      label: "Largest drop of a run",
      formula: entered(given(COMMON_KEYS.dropLimit)),
      format: "0.0%",
      ...shown,
    },
    {
      row: limitRows.loading,
      label: "Largest loading",
      formula: entered(given(COMMON_KEYS.loadingLimit)),
      format: "0%",
      ...shown,
    },
  ];
}

function bandLines(given: InputReach["given"]): BlockLine[] {
  const framework = given(COMMON_KEYS.framework);
  const place = given(COMMON_KEYS.condition);
  const band = (which: keyof BandsAsked) =>
    firstOf(
      [
        [`${framework}=""`, quoted("not entered")],
        ...FRAMEWORKS.map(
          (name) =>
            [
              `${framework}=${quoted(name)}`,
              quoted(touchFrameworks[name].bandsAsked[which]),
            ] as const,
        ),
      ],
      quoted("not known"),
    );
  const limitOf = (line: "band" | "bandAbove") =>
    `IFERROR(${call("SAFETY_LIMIT", framework, limitAt(line), limitAt("place"))},"not determined")`;
  const lines: readonly (readonly [keyof typeof limitRows, string, string])[] =
    [
      ["framework", "Framework", entered(framework)],
      ["place", "Place", `IF(${place}="","wet",${place})`],
      ["band", "Band asked for", band("touchable")],
      ["bandAbove", "Band above it", band("above")],
    ];
  return [
    ...lines.map(([line, label, formula]) => ({
      row: limitRows[line],
      label,
      formula,
      ...WORDS,
    })),
    {
      row: limitRows.bandLimit,
      label: "Limit of the band asked for",
      formula: limitOf("band"),
      ...VOLTS,
    },
    {
      row: limitRows.bandAboveLimit,
      label: "Limit of the band above it",
      formula: limitOf("bandAbove"),
      ...VOLTS,
    },
  ];
}

function otherLines(given: InputReach["given"]): BlockLine[] {
  return [
    {
      row: limitRows.closing,
      label: "Closing error allowed",
      formula: balanceAt("closingAllowed"),
      unit: "W",
      format: "0.0E+00",
      style: "result",
    },
    {
      row: limitRows.altitude,
      label: "Altitude",
      formula: entered(given(COMMON_KEYS.altitude)),
      ...METRES,
    },
    {
      row: limitRows.altitudeLimit,
      label: "Clearances as printed up to",
      formula: entered(given(COMMON_KEYS.altitudeLimit)),
      ...METRES,
    },
  ];
}

/** The label of a limit stands over two columns. */
export function limitMerges(): string[] {
  return [BALANCE_ROW, ...Object.values(limitRows)].map((row) =>
    area(LIMIT_LABEL_COLUMN, row, LIMIT_VALUE_COLUMN - 1, row),
  );
}
