/** One file with the layout of every function's example, calculated by LibreOffice (https://www.libreoffice.org). */
import assert from "node:assert/strict";
import { beforeAll, describe, it } from "vitest";
import { catalogue, evaluate } from "../../../functions/downfeed.js";
import { laidOut } from "../../../functions/working/native/laid-out.js";
import { callOverCells, placedResult } from "../../helpers/call-trees.js";
import type { SheetContent } from "../../helpers/iron-calc.js";
import { type OfficeValues, calculatedByLibreOffice } from "../../helpers/libre-office.js";

const answered = catalogue.filter(({ id, example }) => evaluate(id, example.args).ok);

describe("the layout of its example, in LibreOffice,", () => {
  const sameAt = new Map<string, string>();
  let values: OfficeValues;
  beforeAll(async () => {
    const sheets: Record<string, SheetContent> = {};
    for (const { id, example } of answered) {
      const own = { inputs: `${id} inputs`, result: `${id} result` };
      const { tree, inputs } = callOverCells(id, example.args, own);
      const laid = laidOut(tree);
      assert.ok(laid.ok, id);
      sheets[own.inputs] = inputs;
      sheets[own.result] = placedResult(id, example.args);
      sheets[id] = new Map(
        laid.cells.flatMap(({ at, value, formula }) => {
          const content = formula === undefined ? value : `=${formula}`;
          return content === undefined ? [] : [[at, content] as const];
        }),
      );
      sameAt.set(id, laid.sameAt);
    }
    values = await calculatedByLibreOffice(sheets);
  }, 300_000);

  for (const { id } of answered)
    it(`comes to the value of ${id}`, () => {
      assert.equal(values.get(id)?.get(sameAt.get(id) ?? ""), "yes");
      for (const [at, value] of values.get(id) ?? []) assert.notEqual(value, "no", `${id}!${at}`);
    });
});
