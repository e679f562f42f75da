/**
 * The samples held against the numbers of 0.2, case by case: equal to 1e-12, or listed with the reason. Not a proof that
 * a number is right: that is held against sources and other engines elsewhere.
 */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { samples } from "../../taskpane/budgets/samples/samples.js";
import { changesSince02 } from "./changes-since-0.2.js";
import { type CaseFigures, CASES, figuresOf } from "./numbers-by-label.js";
import numbersOf02 from "./numbers-of-0.2.json" with { type: "json" };
import { figuresAsOf02, RENAMED_ANSWERS } from "./figures-as-of-0.2.js";
import { type OpenSheets, openSheets } from "./open-sheets.js";
import { changesOfSamples } from "./changes-of-samples.js";

const frozen = numbersOf02 as unknown as Readonly<Record<string, CaseFigures>>;
const LONGEST_MS = 180_000;

const worked = samples.filter(({ id }) => id !== "blank-budget");
const met = new Set<string>();

describe.each(worked.map((sample) => [sample.document.title, sample] as const))(
  "%s",
  (_, sample) => {
    it(
      "has no cell in error, and the numbers of 0.2 in nine cases",
      async () => {
        const sheets = await openSheets(sample);
        try {
          assert.deepEqual(sheets.errors(), []);
          const differences = await differencesOf(sample.id, sheets);
          assert.deepEqual(differences, []);
        } finally {
          sheets.workbook.dispose();
        }
      },
      LONGEST_MS,
    );
  },
);

it("each reason is that of a number", () => {
  const idle = changesOfSamples.filter(({ reason }) => !met.has(reason));
  assert.deepEqual(
    idle.map(({ reason }) => reason),
    [],
  );
});

async function differencesOf(id: string, sheets: OpenSheets): Promise<string[]> {
  const before = frozen[id];
  assert.ok(before, `nothing is kept of ${id}`);
  const told = new Map<string, string>();
  for (const [index, { loads, supply }] of CASES.entries()) {
    await sheets.choose(loads, supply);
    const now = figuresAsOf02(sheets);
    const asked = answersAndDay(sheets);
    for (const [figure, kept] of Object.entries(before)) {
      if (told.has(figure)) continue;
      const old = typeof kept === "object" ? kept[index]! : kept;
      const found = now.get(figure) ?? asked[renamed(figure)] ?? "none";
      if (areEqual(figure, old, found)) continue;
      if (isTold(id, figure, found === "none")) continue;
      told.set(figure, `${old} → ${found} (loads ${loads}, supply ${supply})`);
    }
  }
  return [...told].map(([figure, how]) => `${figure}: ${how}`);
}

function renamed(figure: string): string {
  const [sheet = "", ...rest] = figure.split(" › ");
  const today = RENAMED_ANSWERS[rest.join(" › ")];
  return today === undefined ? figure : `${sheet} › ${today}`;
}

/** Sheets of tables whose titles, labels and headings are those of 0.2. */
function answersAndDay({ plan, workbook }: OpenSheets) {
  const sheets = plan.sheets.filter(({ key }) => ["answers", "day"].includes(key));
  const rows = (name: string) => workbook.values(name, "A1:L60");
  return figuresOf({ plan: { ...plan, sheets }, rows });
}

function isTold(budget: string, figure: string, isGone: boolean): boolean {
  const own = changesOfSamples.find(
    ({ budgets, figures, gone }) =>
      (gone ?? false) === isGone && (budgets?.includes(budget) ?? true) && figures.test(figure),
  );
  if (own) met.add(own.reason);
  return (
    own !== undefined ||
    (!isGone &&
      changesSince02.some(
        ({ budgets, figures }) => (budgets?.includes(budget) ?? true) && figures.test(figure),
      ))
  );
}

/** What is left of a difference of nearly equal numbers is rounding, in W, V or A. */
const RESIDUE = /› (Closing error|Difference|Drop \(V\))( |$)/;

function areEqual(figure: string, old: number | string, now: number | string): boolean {
  if (typeof old === "string" || typeof now === "string") return old === now;
  const apart = Math.abs(old - now);
  return RESIDUE.test(figure)
    ? apart <= 1e-8
    : apart <= 1e-12 * Math.max(Math.abs(old), Math.abs(now));
}
