/**
 * The layout of a call: its native formulas, run by IronCalc, come to what the engine computed, for every function of
 * the catalogue and random arguments; where they no longer do, the layout says so.
 */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Argument, type Entry, catalogue, evaluate } from "../../../functions/downfeed.js";
import { answersOf } from "../../../functions/working/lines/call-answer.js";
import {
  type CallWorking,
  callWorking,
  stepLines,
  untraced,
} from "../../../functions/working/lines/call-working.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { callOverCells, placedResult } from "../../helpers/call-trees.js";
import { ironCalc } from "../../helpers/iron-calc.js";
import { tableOf } from "../../../functions/working/lines/result-lines.js";
import { formOf } from "../../helpers/form-of.js";
import { randomArguments } from "../../helpers/random-call.js";

const DRAWS = 16;

const answered = new Map<Entry, readonly (readonly Argument[])[]>();

/** Arguments that the function answers, the example's first. */
function answeredCalls(entry: Entry): readonly (readonly Argument[])[] {
  const calls = answered.get(entry) ?? drawnCalls(entry);
  answered.set(entry, calls);
  return calls;
}

function drawnCalls(entry: Entry): readonly (readonly Argument[])[] {
  const drawn = fc.sample(randomArguments(entry), { numRuns: 80, seed: 20 });
  return [entry.example.args, ...drawn]
    .filter((args) => evaluate(entry.id, args).ok)
    .slice(0, DRAWS);
}

const workings = new WeakMap<readonly Argument[], CallWorking>();

/** Of arguments that were drawn for this function. */
function workingOfCall(id: string, args: readonly Argument[]): CallWorking {
  const known = workings.get(args);
  if (known) return known;
  const [answer] = answersOf(callOverCells(id, args).tree).values();
  assert.ok(answer);
  const working = callWorking(answer);
  workings.set(args, working);
  return working;
}

/** The call laid out, its cells filled with other arguments, and what the layout then says. */
function layout(id: string, args: readonly Argument[], later = args) {
  const laid = laidOut(callOverCells(id, args).tree);
  assert.ok(laid.ok, id);
  for (const { formula } of laid.cells) assert.doesNotMatch(formula ?? "", /FEED/);
  const working = new Map(
    laid.cells.flatMap(({ at, value, formula }) => {
      const content = formula === undefined ? value : `=${formula}`;
      return content === undefined ? [] : [[at, content] as const];
    }),
  );
  const shown = ironCalc({
    Inputs: callOverCells(id, later).inputs,
    Results: placedResult(id, later),
    Working: working,
  });
  return {
    same: shown("Working", laid.sameAt),
    texts: [...working.keys()].map((at) => shown("Working", at)),
    at: (address: string) => shown("Working", address),
    find: (text: string) => [...working.keys()].filter((at) => shown("Working", at) === text),
  };
}

/** The same call with every number a little other. */
function scaled(args: readonly Argument[], factor: number): Argument[] {
  return args.map((argument) => {
    if (typeof argument === "number" && !Number.isInteger(argument)) return argument * factor;
    return argument;
  });
}

function isOfSameForm(one: CallWorking, other: CallWorking): boolean {
  return formOf(one.answer.workings) === formOf(other.answer.workings);
}

describe("the layout of yearly payments", () => {
  // The same formulas for every pair of rates: none of them 0/0 where the price rises as money is discounted.
  const CALLS = {
    PRESENT_COST: (i: number, e: number) => [1000, 0.25, 12, i, e],
    CONDUCTOR_ECONOMIC_AREA: (i: number, e: number) => [
      ...[40, 4000, 0.25, 12, i, 0.3, 60, "copper", 2, e],
    ],
  } satisfies Record<string, (i: number, e: number) => readonly Argument[]>;
  for (const [id, call] of Object.entries(CALLS))
    it(`of ${id} follows its rates to where they are equal, and away from there`, () => {
      const rates = [
        [0.08, 0.02],
        [0.05, 0.05],
        [0.05, 0.1 - 0.05],
        [0.05, 0.0500001],
        [0, 0.03],
      ] as const;
      for (const [i, e] of rates)
        for (const [laterI, laterE] of rates)
          assert.equal(
            layout(id, call(i, e), call(laterI, laterE)).same,
            "yes",
            `${id} ${i}, ${e} to ${laterI}, ${laterE}`,
          );
    });
});

/** Functions whose working shows rows of a feed table in cases that no cell holds. */
const OWN_CASES: ReadonlySet<string> = new Set([
  "CHAIN_BANDS",
  "CHAIN_CASES",
  "CHAIN_CIRCULATING",
  "CHAIN_HEADROOM",
  "CHAIN_OUTAGE",
  "CHAIN_SCHEDULE",
  "CHAIN_SHARES",
  "CHAIN_TORNADO",
  "CHAIN_UNCERTAINTY",
  "CHAIN_WORST",
]);

describe("the layout", () => {
  for (const entry of catalogue) {
    describe(`of ${entry.id}`, () => {
      it("comes to the function's value, whatever the arguments", () => {
        const calls = answeredCalls(entry);
        expect(calls.length).toBeGreaterThanOrEqual(1);
        for (const args of calls)
          assert.equal(layout(entry.id, args).same, "yes", `${entry.id} ${JSON.stringify(args)}`);
      });

      it("follows the cells that it refers to, where its formulas stay the same", () => {
        for (const args of answeredCalls(entry)) {
          const working = workingOfCall(entry.id, args);
          if (working.kind !== "closed form") continue;
          const later = scaled(args, 0.9375);
          if (!evaluate(entry.id, later).ok) continue;
          if (!isOfSameForm(working, workingOfCall(entry.id, later))) continue;
          assert.equal(
            layout(entry.id, args, later).same,
            "yes",
            `${entry.id} ${JSON.stringify(args)}`,
          );
        }
      });

      it("leads every number back to a cell, a table or a default", () => {
        // Rows of a feed table in cases that the function makes up itself.
        if (OWN_CASES.has(entry.id)) return;
        for (const args of answeredCalls(entry)) {
          const { groups } = workingOfCall(entry.id, args);
          assert.deepEqual(
            untraced(groups).map(({ key }) => key),
            [],
            `${entry.id} ${JSON.stringify(args)}`,
          );
        }
      });

      it("finds every number of a closed form's result among its steps", () => {
        if (entry.result.shape === "text") return;
        // A feed table that is refused row by row has no working.
        if ("feedTable" in entry.parameters) return;
        for (const args of answeredCalls(entry)) {
          const { kind, groups } = workingOfCall(entry.id, args);
          const solved = stepLines(groups).some(({ step }) => step.kind === "solved");
          if (solved || groups.length === 0) continue;
          assert.equal(kind, "closed form", `${entry.id} ${JSON.stringify(args)}`);
        }
      });

      it("shows the very number of the step that it names", () => {
        for (const args of answeredCalls(entry)) {
          const { answer, groups, results } = workingOfCall(entry.id, args);
          const { outcome } = answer;
          assert.ok(outcome.ok);
          const values = new Map(
            groups.flatMap(({ lines }) => lines.map(({ key, value }) => [key, value])),
          );
          tableOf(outcome.value).forEach((cells, row) =>
            cells.forEach((cell, column) => {
              const shown = results[row]?.[column];
              if (shown && "line" in shown)
                assert.equal(
                  Number(values.get(shown.line)) * shown.factor,
                  cell,
                  `${shown.line} ${JSON.stringify(args)}`,
                );
            }),
          );
        }
      });

      it("fills each given with the argument of its name, in the given's unit", () => {
        for (const args of answeredCalls(entry)) {
          const { groups, answer } = workingOfCall(entry.id, args);
          const cells = new Map(
            answer.used.flatMap((argument) =>
              argument.cells.map(({ value, origin }) => [
                JSON.stringify(origin),
                { value, unit: argument.parameter.unit },
              ]),
            ),
          );
          for (const { lines } of groups)
            for (const line of lines) {
              if (line.kind !== "given" || line.link.kind !== "linked") continue;
              const { origin, perUnit } = line.link;
              const { value, unit } = cells.get(JSON.stringify(origin))!;
              const cell = value ?? 0;
              const { shown = line.quantity } = line.quantity;
              // A size is a number or a name; of a load's unit, its kind decides.
              if (typeof cell === "number" && unit !== "")
                assert.ok(unit.includes(shown.unit), `${line.key}: ${unit}`);
              assert.equal(
                typeof cell === "number" ? cell / perUnit : cell,
                line.value,
                `${line.key} ${JSON.stringify(args)}`,
              );
            }
        }
      });

      it("reads every table by something that is there", () => {
        for (const args of answeredCalls(entry)) {
          const { groups } = workingOfCall(entry.id, args);
          for (const { step, key, checks } of stepLines(groups))
            if (step.kind === "lookup") assert.ok(checks.length > 0, `${key}: no ${step.key}`);
        }
      });
    });
  }

  it("knows a word in other letters and spelling, and says when it becomes another", () => {
    const args = [350, "16 mm²", 40, "ALUMINUM", "class 2"];
    assert.equal(workingOfCall("CONDUCTOR_RESISTANCE", args).kind, "closed form");
    const { same, find } = layout("CONDUCTOR_RESISTANCE", args);
    assert.equal(same, "yes");
    assert.deepEqual(find("no"), []);
    const later = [350, "16 mm²", 40, "copper", "class 2"];
    assert.ok(layout("CONDUCTOR_RESISTANCE", args, later).find("no").length > 0);
  });
});
