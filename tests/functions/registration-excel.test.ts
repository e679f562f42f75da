import assert from "node:assert/strict";
import { runInNewContext } from "node:vm";
import { beforeAll, describe, it } from "vitest";
import { catalogue } from "../../functions/catalogue.js";
import { type Argument, type Cell, isCellError, isCellTable } from "../../functions/cells.js";
import { isRepeating } from "../../functions/entry.js";
import { evaluateInExcel } from "../../functions/registrations/excel.js";
import {
  type CallResult,
  type CustomFunctionsPage,
  customFunctionsPage,
  errorArgument,
  functionsScript,
  SHOWN,
} from "../excel/custom-functions-runtime.js";

let script: string;
let page: CustomFunctionsPage;

beforeAll(async () => {
  script = await functionsScript();
  page = customFunctionsPage(script);
});

describe("the functions script", () => {
  it("publishes its module as one frozen global", () => {
    const published = page.globals["Downfeed"] as Record<string, unknown>;
    assert.ok(Object.isFrozen(published));
    assert.equal(typeof published["evaluate"], "function");
    assert.equal((published["catalogue"] as readonly unknown[]).length, catalogue.length);
  });

  it("registers every id of the catalogue and no other", () => {
    const { _association } = page.globals["CustomFunctions"] as {
      readonly _association: { readonly mappings: Record<string, unknown> };
    };
    assert.deepEqual(
      Object.keys(_association.mappings).sort(),
      catalogue.map(({ id }) => id).sort(),
    );
  });

  it("runs on a page without a registry, and publishes there too", () => {
    const globals: Record<string, unknown> = {};
    runInNewContext(script, globals);
    assert.ok(globals["Downfeed"]);
    assert.equal(globals["CustomFunctions"], undefined);
  });
});

/** As the spreadsheet hands arguments over: nothing as null, a repeating last one as one list of ranges. */
function asSent(id: string, args: readonly Argument[]): readonly unknown[] {
  const entry = catalogue.find((one) => one.id === id);
  assert.ok(entry, id);
  const parameters = Object.values(entry.parameters);
  const sent = (argument: Argument): unknown =>
    isCellTable(argument) ? argument.map((row) => row.map(sentCell)) : sentCell(argument ?? null);
  const last = parameters.at(-1);
  if (isRepeating(last)) {
    const alone = parameters.length - 1;
    const ranges = args
      .slice(alone)
      .map((argument) => (isCellTable(argument) ? argument : [[argument]]));
    return [...args.slice(0, alone).map(sent), ranges.map((r) => sent(r as never))];
  }
  return parameters.map((_, index) => sent(args[index]));
}

function sentCell(cell: Cell): unknown {
  return isCellError(cell) ? errorArgument(cell.error) : cell;
}

/** The errors inside a spill, as the spreadsheet receives them, written as ours. */
function received(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(received);
  if (typeof value !== "object" || value === null) return value;
  const { code, message } = value as { code: string; message?: string };
  return message === undefined ? { error: code } : { error: code, message };
}

describe("registerInExcel, in Microsoft's runtime", () => {
  it("answers every example of the catalogue as evaluateInExcel does", async () => {
    const results = await Promise.all(
      catalogue.map(({ id, example }) => page.call(id, asSent(id, example.args))),
    );
    catalogue.forEach(({ id, example }, index) => {
      const outcome = evaluateInExcel(id, example.args);
      const result = results[index] as CallResult;
      assert.equal(result.ok, outcome.ok, id);
      if (result.ok && outcome.ok)
        assert.deepEqual(received(result.value), JSON.parse(JSON.stringify(outcome.value)), id);
    });
  });

  it("hands a refusal's message to the cell", async () => {
    const tried = catalogue.filter(
      ({ parameters }) => Object.values(parameters)[0] && !Object.values(parameters)[0]?.optional,
    );
    const results = await Promise.all(
      tried.map(({ id, parameters }) =>
        page.call(
          id,
          Object.keys(parameters).map(() => null),
        ),
      ),
    );
    tried.forEach(({ id }, index) => {
      const outcome = evaluateInExcel(id, []);
      const result = results[index] as CallResult;
      assert.ok(!outcome.ok && !result.ok, id);
      assert.equal(result.message, outcome.message, id);
      assert.equal(SHOWN[result.code as keyof typeof SHOWN], outcome.code, id);
      assert.ok(outcome.argument && result.message.includes(outcome.argument), id);
    });
  });

  it("gives a sheet one answer, whether a blank cell comes as null or as 0", async () => {
    const calls: readonly (readonly [string, readonly unknown[], number])[] = [
      ["CONDUCTOR_DROP", [10, 100, "16 mm²", 20, null, null, null, null], 4],
      ["CONDUCTOR_DROP", [10, 100, "16 mm²", 20, null, null, null, null], 6],
      ["STAGE_LOSS", [20, 6, null, 0.01], 2],
      ["PARALLEL_WORST", [200, 4, 54, null, 0.01, 0, null], 3],
    ];
    for (const [id, sent, blank] of calls) {
      const asZero = sent.map((one, at) => (at === blank ? 0 : one));
      const [web, desktop] = await Promise.all([page.call(id, sent), page.call(id, asZero)]);
      assert.ok(web.ok, id);
      assert.deepEqual(desktop, web, id);
    }
  });

  it("refuses a temperature of 0 and tells what to type, and takes loads of 0 for none", async () => {
    const cold = await page.call("CONDUCTOR_DROP", [
      ...[10, 100, "16 mm²", 0, null, null, null, null],
    ]);
    assert.ok(!cold.ok);
    assert.match(cold.message, /^temperature must be given .*type 0\.001/);
    const feed = [
      ["Item", "Fed from", "Kind", "Voltage", "Load"],
      ["Bus", "", "supply", 48, ""],
      ["Lamp", "Bus", "current load", "", 2],
    ];
    const drawn = (loads: unknown) => page.call("CHAIN_TOTAL", [feed, "load power", loads, null]);
    assert.deepEqual(await drawn(0), { ok: true, value: 0 });
    assert.deepEqual(await drawn(null), { ok: true, value: 96 });
  });

  it("refuses a text where a number belongs, as the pane and the workbench do", async () => {
    for (const text of ["10 A", "12A", "1/16", "10:30", "5%", "10"]) {
      const args = [text, 50, "2.5 mm²", 70, null, null, null, null];
      const result = await page.call("CONDUCTOR_DROP", args);
      assert.ok(!result.ok, text);
      assert.equal(SHOWN[result.code as keyof typeof SHOWN], "#VALUE!");
      assert.equal(result.message, `current must be a number, got "${text}"`);
    }
  });

  it("gives the pane the runner that reads blank cells as the cells do", () => {
    const { evaluate } = page.globals["Downfeed"] as {
      readonly evaluate: typeof evaluateInExcel;
    };
    const cold = evaluate("CONDUCTOR_DROP", [10, 100, "16 mm²", 0]);
    assert.ok(!cold.ok && /type 0\.001/.test(cold.message));
  });

  it("passes an argument's error on, as the error that a function may show", async () => {
    const shown = {
      "#N/A": "#N/A",
      "#DIV/0!": "#DIV/0!",
      "#NUM!": "#NUM!",
      "#NULL!": "#NULL!",
      "#VALUE!": "#VALUE!",
      "#REF!": "#VALUE!",
      "#NAME?": "#VALUE!",
      "#FIELD!": "#VALUE!",
    };
    const { id, parameters } = scalarEntry();
    for (const [code, expected] of Object.entries(shown)) {
      const result = await page.call(id, [
        errorArgument(code),
        ...Object.keys(parameters)
          .slice(1)
          .map(() => null),
      ]);
      assert.ok(!result.ok, code);
      assert.equal(SHOWN[result.code as keyof typeof SHOWN], expected, code);
      if (expected === "#VALUE!" || expected === "#N/A")
        assert.ok(result.message.includes(code), result.message);
    }
  });

  it("reads the plain value inside a rich one", async () => {
    const { id, example } = scalarEntry();
    const rich = example.args.map((value) => ({
      type: "Double",
      basicType: "Double",
      basicValue: value,
    }));
    const [plain, wrapped] = await Promise.all([
      page.call(id, asSent(id, example.args)),
      page.call(id, [...rich, ...asSent(id, example.args).slice(rich.length)]),
    ]);
    assert.deepEqual(wrapped, plain);
    assert.ok(plain.ok);
  });
});

/** A function whose first argument is one required cell. */
function scalarEntry() {
  const entry = catalogue.find(
    ({ parameters, example }) =>
      Object.values(parameters)[0]?.kind.startsWith("number") &&
      Object.values(parameters)[0]?.kind !== "numbers" &&
      example.args.length > 0 &&
      !example.args.some(isCellTable),
  );
  assert.ok(entry, "no function with one cell as its first argument");
  return entry;
}
