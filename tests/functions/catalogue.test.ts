import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../functions/catalogue.js";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { isCellError, isCellTable } from "../../functions/cells.js";
import { BLANKS_AS_ZERO, BLANKS_TOLD } from "../../functions/arguments.js";
import { isZeroReal } from "../../functions/entry.js";
import { evaluate, type Outcome } from "../../functions/runner.js";
import { citations } from "../../src/quantities/citations.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { tokens } from "../../src/quantities/formulas.js";

/** Half a unit of the last digit that an example prints. */
function agrees(found: Cell | undefined, printed: Cell | undefined): boolean {
  if (typeof found !== "number" || typeof printed !== "number") return found === printed;
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
    assert.ok(!outcome.message.startsWith("fault in Downfeed"), outcome.message);
    return;
  }
  const widths = new Set(
    isCellTable(outcome.value) ? outcome.value.map(({ length }) => length) : [1],
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
          assert.ok(agrees(cell, printed[index]), `${cell}, printed ${printed[index]}`),
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
        for (const { steps, values } of outcome.working()) assertSteps(steps, values);
      });

      /** The example with one argument changed: its answer, or why it is refused. */
      const told = (index: number, value: Argument, blanks = BLANKS_TOLD) => {
        const args: Argument[] = [...entry.example.args];
        while (args.length <= index) args.push(undefined);
        args[index] = value;
        const outcome = evaluate(entry.id, args, blanks);
        return outcome.ok ? [outcome.value] : outcome.message;
      };
      const isMessage = (found: ReturnType<typeof told>) => typeof found === "string";

      it("takes nothing, a blank and an omission for one thing: not given, or refused by name", () => {
        Object.values(entry.parameters).forEach((parameter, index) => {
          const { name, optional } = parameter;
          const omitted = told(index, undefined);
          for (const blank of [null, "", "  "]) expect(told(index, blank), name).toEqual(omitted);
          // A list of several arguments passes over the blank ones.
          const repeats = "repeating" in parameter && parameter.repeating;
          if (!optional && !repeats) expect(omitted).toBe(`${name} must be given, got nothing`);
        });
      });

      it("never takes a 0 for not given where a blank cell is told from it", () => {
        Object.values(entry.parameters).forEach((parameter, index) => {
          const { name, optional } = parameter;
          const found = told(index, 0);
          expect(JSON.stringify(found), name).not.toContain("must be given (");
          if (!optional || isZeroReal(parameter)) return;
          // A 0 with an answer of its own is a value in every host, and declared as one.
          const omitted = told(index, undefined);
          if (!isMessage(found) && !isMessage(omitted)) expect(found, name).toEqual(omitted);
        });
      });

      it("takes a 0 as its argument declares it where a blank cell may come as 0", () => {
        Object.values(entry.parameters).forEach((parameter, index) => {
          const { name, optional, kind } = parameter;
          if (kind === "numbers") return;
          const found = told(index, 0, BLANKS_AS_ZERO);
          const instead =
            "insteadOfZero" in parameter && parameter.insteadOfZero
              ? `; ${parameter.insteadOfZero}`
              : "";
          if (isZeroReal(parameter)) {
            expect(found, name).toEqual(told(index, 0));
            const blank = told(index, null, BLANKS_AS_ZERO);
            expect(blank, name).toEqual(told(index, optional ? null : 0));
          } else if (optional) {
            expect(found, name).toEqual(told(index, undefined));
          } else {
            expect(found).toBe(
              `${name} must be given (the spreadsheet may pass a blank cell as 0${instead}), got 0`,
            );
          }
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
          fc.constantFrom<Cell[]>({ error: "#DIV/0!" }, Infinity, -Infinity, 1e300, 1e-300, -1),
          fc.string({ maxLength: 5 }),
        );
        const argument: fc.Arbitrary<Argument> = fc.oneof(
          { weight: 4, arbitrary: cell },
          {
            weight: 1,
            arbitrary: fc.array(fc.array(cell, { minLength: 2, maxLength: 2 }), {
              minLength: 1,
              maxLength: 3,
            }),
          },
        );
        // Mostly the example's own arguments, so that one bad one meets good ones.
        const args = fc
          .array(fc.tuple(fc.boolean(), argument), {
            maxLength: Object.keys(entry.parameters).length + 1,
          })
          .map((drawn) =>
            drawn.map(([own, other], index) => (own ? entry.example.args[index] : other)),
          );
        fc.assert(
          fc.property(args, (drawn) => requireFit(evaluate(entry.id, drawn))),
          { numRuns: 300 },
        );
      });

      it("names the argument that is to blame", () => {
        Object.values(entry.parameters).forEach((parameter, index) => {
          if (parameter.kind === "cells" || parameter.kind === "numbers") return;
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

  it("takes 0 °C for a temperature, and asks for 0.001 where a blank cell may come as 0", () => {
    const temperatures = catalogue.flatMap(({ id, parameters, example }) =>
      Object.values(parameters).flatMap(({ name, unit }, index) =>
        unit === "°C" ? [{ id, name, args: example.args, index }] : [],
      ),
    );
    assert.ok(temperatures.length >= 10, String(temperatures.length));
    for (const { id, name, args, index } of temperatures) {
      const changed = args.map((own, at) => (at === index ? 0 : own));
      const outcome = evaluate(id, changed);
      // What must lie above another temperature is refused for that.
      if (!outcome.ok) expect(outcome.message, id).toMatch(/must be above the|is not above/);
      const asZero = evaluate(id, changed, BLANKS_AS_ZERO);
      assert.ok(!asZero.ok);
      expect(asZero.message).toBe(
        `${name} must be given (the spreadsheet may pass a blank cell as 0; for 0 °C type 0.001), got 0`,
      );
    }
  });

  it("holds the functions of the job, each id once", () => {
    const ids = catalogue.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...ids].sort()).toEqual([
      "CHAIN_BANDS",
      "CHAIN_CASES",
      "CHAIN_CHECKS",
      "CHAIN_CIRCULATING",
      "CHAIN_COMPARE",
      "CHAIN_EFFICIENCY",
      "CHAIN_HEADROOM",
      "CHAIN_OUTAGE",
      "CHAIN_PROOF",
      "CHAIN_SCHEDULE",
      "CHAIN_SHARES",
      "CHAIN_SOLVE",
      "CHAIN_TABLE",
      "CHAIN_TORNADO",
      "CHAIN_TOTAL",
      "CHAIN_UNCERTAINTY",
      "CHAIN_WORST",
      "CONDUCTOR_AMPACITY",
      "CONDUCTOR_AREA",
      "CONDUCTOR_BUSBAR_AREA",
      "CONDUCTOR_CAPACITANCE",
      "CONDUCTOR_DROP",
      "CONDUCTOR_DROP_DISTRIBUTED",
      "CONDUCTOR_ECONOMIC_AREA",
      "CONDUCTOR_INDUCTANCE",
      "CONDUCTOR_LOSS",
      "CONDUCTOR_MASS",
      "CONDUCTOR_RESISTANCE",
      "CONDUCTOR_SIZE",
      "CONDUCTOR_TEMPERATURE",
      "CONDUCTOR_TRACE_CURRENT",
      "CONDUCTOR_WITHSTAND_TIME",
      "DISCONNECTION_TIME",
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
