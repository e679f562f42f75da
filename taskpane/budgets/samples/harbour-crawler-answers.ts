/** What else the crawler is asked: umbilicals by size, the pull of the water, how its units share, its datasheet. */
import { call } from "../../../src/plans/sheet-builder.js";
import type { AnswerReach, AnswerTable } from "../sample.js";

const UNITS = "Ratio units";
/** Their type. */
export const UNIT_TYPE = "800 V to 50 V, 70 A";
const UMBILICAL = "Umbilical";

/** The type of the sonar's stage. */
export const SONAR = "24 V sonar stage, 8 A";

export function crawlerAnswers(reach: AnswerReach): AnswerTable[] {
  return [umbilicals(reach), pull(reach), lostOne(reach), ...sharing(reach), ...sonar(reach)];
}

/** Sizes that an umbilical of this kind is made with. */
const SIZES = ["1 mm²", "1.5 mm²", "2.5 mm²", "4 mm²"];

function umbilicals({ typed, solved, figure }: AnswerReach): AnswerTable {
  const cable = (header: string) => typed("Cable", UMBILICAL, header);
  const current = solved(UMBILICAL, "Input A");
  const other = figure("Mass of all that is not power conductor");
  return {
    title: "Which umbilical: mass against loss, at the solved current",
    how: "CONDUCTOR_MASS and CONDUCTOR_RESISTANCE with the umbilical's own length, build and temperature, as if another size left the current as it is.",
    headings: ["Size", "Mass (kg)", "Resistance (Ω)", "Drop (V)", "Loss (W)"],
    rows: SIZES.map((size, index) => {
      const one = (column: (index: number) => string) => `INDEX(${column(1)},${index + 1})`;
      return {
        label: size,
        values: [
          {
            formula: call(
              "CONDUCTOR_MASS",
              cable("Length"),
              `"${size}"`,
              '"copper"',
              "1",
              "2",
              other,
            ),
            format: "0.0",
          },
          {
            formula: call(
              "CONDUCTOR_RESISTANCE",
              cable("Length"),
              `"${size}"`,
              cable("Conductor at most"),
              '"copper"',
              cable("Build"),
            ),
            format: "0.00",
          },
          { formula: (column) => `${current}*${one(column)}`, format: "0.0" },
          { formula: (column) => `${current}^2*${one(column)}`, format: "0.0" },
        ],
      };
    }),
  };
}

function pull({ typed, figure }: AnswerReach): AnswerTable {
  const speed = figure("Speed of the water across the umbilical");
  const force = `0.5*${figure("Density of sea water")}*${speed}^2*${figure("Drag factor of a cylinder")}*${typed("Cable", UMBILICAL, "Outer diameter")}/1000*${typed("Cable", UMBILICAL, "Length")}`;
  return {
    title: "Pull of the water on the umbilical",
    how: "Half the density times speed squared, times drag factor, diameter and length: as if all of it lay across the stream.",
    headings: ["Figure", "Value", "Unit"],
    rows: [
      {
        label: "Force, all of the length across the stream",
        values: [{ formula: force, format: "0" }, "N"],
      },
    ],
  };
}

function lostOne({ solved, typed, entered }: AnswerReach): AnswerTable {
  const unit = (header: string) => typed("Stage", UNITS, header);
  // What units differ by drives the more current, the less resistance there is; an empty cell is passed over.
  const [hot, cold] = ["Resistance", "Least resistance"].map((header) =>
    typed("Stage type", UNIT_TYPE, header),
  );
  const least = `MIN(${hot},${cold})/1000`;
  const count = unit("In parallel");
  return {
    title: "One of the units lost, at the solved load",
    how: "PARALLEL_WORST: what the worst-placed unit carries, with set voltages and resistances as far apart as the schedule says, at their least where one is entered.",
    headings: ["Units left", "Worst unit (A)", "Rated (A)"],
    rows: [
      ["all", count],
      ["one fewer", `MAX(1,${count}-1)`],
    ].map(([label = "", left = ""]) => ({
      label,
      values: [
        {
          formula: call(
            "PARALLEL_WORST",
            solved(UNITS, "Output A"),
            left,
            solved(UNITS, "Output V"),
            unit("Set-point spread"),
            least,
            unit("Resistance spread"),
          ),
          format: "0.0",
        },
        { formula: entered(UNITS, "Rated A"), format: "0" },
      ],
    })),
  };
}

/** One unit as high and as stiff as the schedule lets it be, beside one as low and as soft. */
function sharing({ solved, typed, entered }: AnswerReach): AnswerTable[] {
  const set = `${solved(UNITS, "Input V")}*${entered(UNITS, "Ratio")}`;
  const resistance = entered(UNITS, "Resistance");
  const unit = (label: string, set1: string, resistance1: string) => ({
    label,
    values: [
      {
        formula: `${set}*(1${set1}${typed("Stage", UNITS, "Set-point spread")})`,
        format: "0.00",
      },
      {
        formula: `${resistance}*(1${resistance1}${typed("Stage", UNITS, "Resistance spread")})`,
        format: "0.0000",
      },
    ],
  });
  return [
    {
      title: "Two units as far apart as they may be",
      how: "Set voltage is the units' input times their ratio, no load.",
      headings: ["Unit", "Set (V)", "Resistance (Ω)"],
      rows: [unit("Unit that carries most", "+", "-"), unit("The other unit", "-", "+")],
    },
    {
      title: "How they share the solved load",
      how: "PARALLEL_SHARE, in the order above; below them the voltage of their bus.",
      headings: ["Current (A)", "Share"],
      spill: {
        formula: (above) => call("PARALLEL_SHARE", above(0), above(1), solved(UNITS, "Output A")),
        // Both units, then the bus.
        rows: 3,
        format: "0.00",
      },
    },
  ];
}

/** Both are there to be compared; the budget is solved with what is entered. */
function sonar({ typed }: AnswerReach): AnswerTable[] {
  const of = (header: string) => typed("Stage type", SONAR, header);
  return [
    {
      title: "Losses of the sonar's stage as entered, against its datasheet",
      how: "Efficiency as entered: output over output and a + b·I + c·I².",
      headings: ["Point", "Output (W)", "Datasheet", "As entered"],
      rows: [1, 2, 3, 4, 5].map((point) => {
        const [load, volts] = [of(`Load ${point} W`), of("Voltage")];
        const losses = `${of("Fixed loss")}+${of("Linear loss")}*${load}/${volts}+${of("Quadratic loss")}*(${load}/${volts})^2`;
        return {
          label: `Point ${point}`,
          values: [
            { formula: load, format: "0" },
            { formula: of(`Efficiency ${point}`), format: "0.0%" },
            { formula: `${load}/(${load}+${losses})`, format: "0.00%" },
          ],
        };
      }),
    },
    {
      title: "Losses fitted to that datasheet",
      how: "STAGE_FIT over the points above; the misfit is how far the fitted efficiency is off at most.",
      headings: ["Fixed (W)", "Linear (W/A)", "Quadratic (W/A²)", "Misfit (part of 1)"],
      spill: {
        formula: (above) => call("STAGE_FIT", of("Voltage"), above(0), above(1)),
        rows: 1,
        format: "0.0000",
      },
    },
  ];
}
