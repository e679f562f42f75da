import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../functions/catalogue.js";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { isCellError, isCellTable } from "../../functions/cells.js";
import { evaluate, type Outcome } from "../../functions/runner.js";
import { citations } from "../../src/quantities/citations.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { tokens } from "../../src/quantities/formulas.js";

/** Half a unit of the last digit that an example prints. */
function agrees(found: Cell | undefined, printed: Cell | undefined): boolean {
  if (typeof found !== "number" || typeof printed !== "number")
    return found === printed;
  const decimals = (String(printed).split(".")[1] ?? "").length;
  return Math.abs(found - printed) <= 0.5 * 10 ** -decimals * (1 + 1e-9);
}

function cellsOf(value: Cell | CellTable): readonly Cell[] {
  return isCellTable(value) ? value.flat() : [value];
}

/** What a sheet may never be handed: a fault of ours, or a cell that is no value. */
function requireFit(outcome: Outcome): void {
  if (!outcome.ok) {
    assert.ok(outcome.message.length > 0);
    assert.ok(
      !outcome.message.startsWith("fault in Downfeed"),
      outcome.message,
    );
    return;
  }
  const widths = new Set(
    isCellTable(outcome.value)
      ? outcome.value.map(({ length }) => length)
      : [1],
  );
  assert.equal(widths.size, 1);
  for (const cell of cellsOf(outcome.value))
    assert.ok(
      isCellError(cell) ||
        typeof cell === "string" ||
        typeof cell === "boolean" ||
        Number.isFinite(cell),
      String(cell),
    );
}

describe("the catalogue", () => {
  for (const entry of catalogue) {
    describe(entry.id, () => {
      it("gives its example", () => {
        const outcome = evaluate(entry.id, entry.example.args);
        assert.ok(outcome.ok, JSON.stringify(outcome));
        const found = cellsOf(outcome.value);
        const printed = cellsOf(entry.example.gives);
        expect(found.length).toBe(printed.length);
        found.forEach((cell, index) =>
          assert.ok(
            agrees(cell, printed[index]),
            `${cell}, printed ${printed[index]}`,
          ),
        );
      });

      it("has a name that no cell has, a purpose in one line, and works that are listed", () => {
        expect(entry.id).toMatch(/^[A-Z]{2,}(_[A-Z]+)+$/);
        expect(entry.purpose.length).toBeLessThanOrEqual(255);
        expect(entry.purpose).not.toMatch(/[\r\n]/);
        for (const id of entry.citations) expect(citations[id]).toBeDefined();
      });

      it("keeps every formula of its working in the grammar", () => {
        const outcome = evaluate(entry.id, entry.example.args);
        assert.ok(outcome.ok);
        for (const { steps } of outcome.working())
          for (const step of Object.values(steps)) {
            if (step.kind === "formula") tokens(step.formula);
            if (step.kind === "solved") tokens(step.residual);
          }
      });

      it("shows a working of its example that another engine follows", () => {
        const outcome = evaluate(entry.id, entry.example.args);
        assert.ok(outcome.ok);
        for (const { steps, values } of outcome.working())
          assertSteps(steps, values);
      });

      it("reads 0, nothing, a blank and an omission alike for every optional argument", () => {
        const parameters = Object.values(entry.parameters);
        parameters.forEach((parameter, index) => {
          if (!parameter.optional) return;
          const answers = [undefined, null, "", 0].map((blank) => {
            const args: Argument[] = [...entry.example.args];
            while (args.length <= index) args.push(undefined);
            args[index] = blank;
            const outcome = evaluate(entry.id, args);
            return JSON.stringify(
              outcome.ok ? outcome.value : [outcome.code, outcome.argument],
            );
          });
          expect(new Set(answers).size, parameter.name).toBe(1);
        });
      });

      it("answers or refuses any arguments, 300 of them", () => {
        const cell: fc.Arbitrary<Cell> = fc.oneof(
          fc.double(),
          fc.double({ min: 0.01, max: 1000, noNaN: true }),
          fc.constantFrom<Cell[]>(
            0,
            "",
            null,
            true,
            "exact",
            "AWG 12",
            "2.5 mm²",
            "dry",
            "wet",
            "dc",
            "copper",
            "power",
            "IEC 62368-1",
            "none",
          ),
          fc.constantFrom<Cell[]>(
            { error: "#DIV/0!" },
            Infinity,
            -Infinity,
            1e300,
            1e-300,
            -1,
          ),
          fc.string({ maxLength: 5 }),
        );
        const argument: fc.Arbitrary<Argument> = fc.oneof(
          { weight: 4, arbitrary: cell },
          {
            weight: 1,
            arbitrary: fc.array(
              fc.array(cell, { minLength: 2, maxLength: 2 }),
              { minLength: 1, maxLength: 3 },
            ),
          },
        );
        // Mostly the example's own arguments, so that one bad one meets good ones.
        const args = fc
          .array(fc.tuple(fc.boolean(), argument), {
            maxLength: Object.keys(entry.parameters).length + 1,
          })
          .map((drawn) =>
            drawn.map(([own, other], index) =>
              own ? entry.example.args[index] : other,
            ),
          );
        fc.assert(
          fc.property(args, (drawn) => requireFit(evaluate(entry.id, drawn))),
          { numRuns: 300 },
        );
      });

      it("names the argument that is to blame", () => {
        Object.values(entry.parameters).forEach((parameter, index) => {
          if (parameter.kind === "cells" || parameter.kind === "numbers")
            return;
          const args: Argument[] = [...entry.example.args];
          while (args.length <= index) args.push(undefined);
          for (const bad of [Number.NaN, Infinity, true]) {
            args[index] = bad;
            const outcome = evaluate(entry.id, args);
            assert.ok(!outcome.ok, `${parameter.name} took ${String(bad)}`);
            expect(outcome.message).toContain(parameter.name);
          }
        });
      });
    });
  }

  it("holds the functions of the job, each id once", () => {
    const ids = catalogue.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...ids].sort()).toEqual([
      "CHAIN_EFFICIENCY",
      "CHAIN_HEADROOM",
      "CHAIN_SOLVE",
      "CHAIN_TOTAL",
      "CHAIN_WORST",
      "CONDUCTOR_AMPACITY",
      "CONDUCTOR_AREA",
      "CONDUCTOR_BUSBAR_AREA",
      "CONDUCTOR_CAPACITANCE",
      "CONDUCTOR_DROP",
      "CONDUCTOR_ECONOMIC_AREA",
      "CONDUCTOR_INDUCTANCE",
      "CONDUCTOR_LOSS",
      "CONDUCTOR_MASS",
      "CONDUCTOR_RESISTANCE",
      "CONDUCTOR_SIZE",
      "CONDUCTOR_TEMPERATURE",
      "CONDUCTOR_TRACE_CURRENT",
      "CONDUCTOR_WITHSTAND_TIME",
      "ENERGY_LOSS",
      "ENGINE_VERSION",
      "FAULT_CURRENT",
      "FUSE_RATING",
      "HOLDUP_CAPACITANCE",
      "HOLDUP_TIME",
      "LOAD_STEP_SAG",
      "PARALLEL_SHARE",
      "PARALLEL_UNITS",
      "PARALLEL_WORST",
      "PRECHARGE_ENERGY",
      "PRECHARGE_RESISTANCE",
      "PRESENT_COST",
      "PROTECTED_LENGTH",
      "RATIO_CHOICES",
      "RATIO_INPUT_CURRENT",
      "RATIO_LOSS",
      "RATIO_OUTPUT",
      "RATIO_REFLECTED",
      "SAFETY_AFTER_FAULT",
      "SAFETY_BAND",
      "SAFETY_DISCHARGE_TIME",
      "SAFETY_LIMIT",
      "SAFETY_STORED_ENERGY",
      "SAFETY_WORST_VOLTAGE",
      "STABILITY_MARGIN",
      "STAGE_DERATED",
      "STAGE_EFFICIENCY",
      "STAGE_FIT",
      "STAGE_LOSS",
      "STAGE_PEAK",
      "SUPPLY_BATTERY",
      "SUPPLY_LIMIT",
      "SUPPLY_RECTIFIED",
      "SUPPLY_VOLTAGE",
    ]);
  });
});
