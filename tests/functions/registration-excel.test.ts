import assert from "node:assert/strict";
import { runInNewContext } from "node:vm";
import { afterAll, beforeAll, describe, it } from "vitest";
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

afterAll(() => page.close());

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

  // Custom functions documentation (seen): a value is made a text before the call where the type is string, so a blank
  // cell comes as text of no length, and a 0 that a formula made of a blank cell as the text of it.
  it("takes a word that is left out, blank or the 0 of a blank cell for not given", async () => {
    const args = (build: unknown) => [10, 100, "16 mm²", 20, null, build, null, null];
    const [[plain, ...same], asked] = await Promise.all([
      Promise.all([null, "", " ", "0", 0].map((build) => page.call("CONDUCTOR_DROP", args(build)))),
      Promise.all(
        ["", "0"].map((layer) => page.call("CONDUCTOR_TRACE_CURRENT", [1, 35, 10, layer])),
      ),
    ]);
    assert.ok(plain?.ok);
    for (const one of same) assert.deepEqual(one, plain);
    for (const one of asked) assert.ok(!one.ok && one.message.startsWith("layer must be given"));
  });

  it("refuses a number or a truth value in place of a word as the pane does, which is handed it raw", async () => {
    const refused = async (raw: number | boolean, text: string) => {
      const sent = await page.call("CONDUCTOR_TRACE_CURRENT", [1, 35, 10, text]);
      const read = evaluateInExcel("CONDUCTOR_TRACE_CURRENT", [1, 35, 10, raw]);
      assert.ok(!sent.ok && !read.ok);
      assert.equal(sent.message, read.message);
      assert.equal(read.message, `layer must be "outer" or "inner", got "${text}"`);
    };
    await Promise.all([refused(5, "5"), refused(true, "TRUE")]);
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

  // "Excel JavaScript API data types core concepts" (seen): the number format of a value travels with it through
  // calculations, so that volts times amperes would be shown in volts.
  it("gives plain numbers, which no unit follows into a product", async () => {
    const examples = catalogue.filter(({ result }) => result.shape === "number");
    assert.ok(examples.length > 30);
    await Promise.all(
      examples.map(async ({ id, example }) => {
        const given = await page.call(id, asSent(id, example.args));
        assert.ok(given.ok && typeof given.value === "number", id);
      }),
    );
  });

  // Excel's data types (seen): a number with a format of its own is a Double, before ExcelApi 1.19 a FormattedNumber.
  it("reads numbers with formats of their own, texts, truth values and errors inside ranges", async () => {
    const feed = [
      ["Item", "Fed from", "Kind", "Voltage", "Load"],
      ["Bus", "", "supply", 48, ""],
      ["Lamp", "Bus", "current load", "", 2],
    ] as const;
    const rich = (value: string | number, type: string) => ({
      type,
      basicType: typeof value === "number" ? "Double" : "String",
      basicValue: value,
      ...(typeof value === "number" && { numberFormat: '0.00 "V"' }),
    });
    const wrapped = (number: string) =>
      feed.map((row) =>
        row.map((cell) => rich(cell, typeof cell === "number" ? number : "String")),
      );
    const failed = {
      type: "Error",
      basicType: "Error",
      basicValue: "#N/A",
      errorType: "NotAvailable",
    };
    const truth = { type: "Boolean", basicType: "Boolean", basicValue: true };
    const total = (number: string) =>
      page.call("CHAIN_TOTAL", [wrapped(number), "load power", null, null]);
    const [now, before, passed, refused] = await Promise.all([
      total("Double"),
      total("FormattedNumber"),
      page.call("CONDUCTOR_AREA", [failed]),
      page.call("RATIO_OUTPUT", [truth, 1, 1, 1]),
    ]);
    assert.deepEqual([now, before], Array(2).fill({ ok: true, value: 96 }));
    assert.ok(!passed.ok && passed.message.includes("#N/A"));
    assert.ok(!refused.ok && /must be a number, got/.test(refused.message));
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
