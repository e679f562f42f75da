import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { trackside } from "../feeds/trackside.js";
import {
  BETTER_WORDS,
  COVER_FIGURES,
  WORSE_WORDS,
} from "../../src/judgement/comparison/feed-comparison.js";
import { feedTableOf } from "../helpers/feed-cells.js";
import { randomFeed } from "../helpers/random-feed.js";
import {
  askedWith,
  changed,
  type Judged,
  judged,
  number,
  rowsBelow,
  spill,
  tableOf,
} from "./judged.js";

function compare(...args: readonly Argument[]): Judged[] {
  return rowsBelow(spill("CHAIN_COMPARE", args));
}

function row(rows: readonly Judged[], item: string, figure: string): Judged {
  const found = rows.find(({ Item, Figure }) => Item === item && Figure === figure);
  assert.ok(found, `no ${figure} of ${item}`);
  return found;
}

/** @param drawn Current of the load, and the item that carries it. */
function feed(ohms: number, drawn = 10, load = "Camp"): CellTable {
  return [
    ["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load", "Lowest V", "Highest V"],
    ["Bus", "", "supply", 400, "", "", 380, 420],
    ["Cable", "Bus", "run", "", ohms, "", "", ""],
    [load, "Cable", "current load", "", "", drawn, 365, 450],
  ];
}

/** Of another cable, hot and cold. */
const POINT_OHMS = { "Resistance (Ω)": 0.01, "Least resistance (Ω)": 0.008 };

describe("two versions of a feed", () => {
  const { blocks, askedFor } = trackside();
  const table = tableOf({ blocks, askedFor });

  it("that are one and the same differ in nothing", () => {
    const rows = compare(table, table, askedFor);
    assert.ok(rows.length > 40, String(rows.length));
    for (const each of rows) {
      assert.ok(each["Difference"] === 0 || each["Difference"] === "–");
      if (each["Figure"] !== "Mass" && each["Figure"] !== "Price")
        assert.equal(each["Verdict"], "same", JSON.stringify(each));
    }
  });

  it("show of every item what each has when it is solved by itself, and the difference", () => {
    const other = changed(table, "Point cable", POINT_OHMS);
    const rows = compare(table, other, askedFor, null, "peak", "lowest");
    const [inA, inB] = [table, other].map((one) =>
      rowsBelow(spill("CHAIN_SOLVE", [one, "peak", "lowest"])),
    );
    let held = 0;
    let moved = 0;
    inA!.forEach((a, at) => {
      const b = inB![at]!;
      for (const figure of ["Input V", "Output V", "Input A", "Loss W", "Loading"]) {
        if (typeof a[figure] !== "number") continue;
        const found = rows.find((one) => one["Item"] === a["Item"] && one["Figure"] === figure);
        if (!found) continue;
        assert.equal(found["A"], a[figure]);
        assert.equal(found["B"], b[figure]);
        assert.equal(found["Difference"], number(b, figure) - number(a, figure));
        held += 1;
        moved += found["Difference"] === 0 ? 0 : 1;
      }
    });
    assert.ok(held > 25, String(held));
    assert.ok(moved > 3, String(moved));
  });

  it("show of the whole feed the worst that each has in its nine cases", () => {
    const other = changed(table, "Point cable", POINT_OHMS);
    const rows = compare(table, other, askedFor);
    for (const [version, one] of [
      ["A", table],
      ["B", other],
    ] as const) {
      const cases = rowsBelow(spill("CHAIN_CASES", [one]));
      const all = (heading: string) => cases.map((each) => number(each, heading));
      const figure = (name: string) => row(rows, "Whole feed", name)[version];
      assert.equal(figure("Highest supply power"), Math.max(...all("Supply W")));
      assert.equal(figure("Highest loss"), Math.max(...all("Loss W")));
      assert.equal(figure("Least margin to a window"), Math.min(...all("Least margin")));
      assert.equal(figure("Highest loading"), Math.max(...all("Highest loading")));
      const checks = judged(one, askedFor);
      const count = (verdict: string) =>
        checks.filter((each) => each["Verdict"] === verdict).length;
      assert.equal(figure("Checks that fail"), count("fails"));
      assert.equal(figure("Checks not determined"), count("not determined"));
    }
  });

  it("list the checks that are judged otherwise, and no other", () => {
    const other = changed(table, "Point cable", POINT_OHMS);
    const strict = askedWith(askedFor, {
      "Margin to each window": 0.5,
      "Largest loading of a cable": 0.01,
    });
    const verdicts = (one: CellTable, asked: CellTable) =>
      new Map(
        judged(one, asked).map((each) => [`${each["Item"]}: ${each["Check"]}`, each["Verdict"]]),
      );
    const [inA, inB] = [verdicts(table, askedFor), verdicts(other, strict)];
    const wanted = [...inA].flatMap(([name, verdict]) =>
      inB.has(name) && inB.get(name) !== verdict ? [name] : [],
    );
    const listed = compare(table, other, askedFor, strict)
      .filter(({ Verdict }) => /^now |in A, /.test(String(Verdict)))
      .map((each) => `${each["Item"]}: ${each["Figure"]}`);
    assert.ok(wanted.length > 2, String(wanted.length));
    assert.deepEqual(listed, wanted);
  });

  it("say better or worse of losses and margins, of a voltage only that it differs", () => {
    const rows = compare(feed(2), feed(1));
    // 10² · 2 Ω and 10² · 1 Ω; 400 V − 10 A · R.
    const loss = row(rows, "Cable", "Loss W");
    assert.deepEqual(
      ["A", "B", "Difference", "Relative difference", "Verdict"].map((name) => loss[name]),
      [200, 100, -100, -0.5, "better"],
    );
    assert.equal(row(rows, "Camp", "Input V")["Verdict"], "differs");
    assert.equal(row(rows, "Camp", "Margin to its window")["Verdict"], "better");
    const back = compare(feed(1), feed(2));
    assert.equal(row(back, "Cable", "Loss W")["Verdict"], "worse");
    // 380 V − 10 A · 2 Ω = 360 V is below 365 V, 370 V is above it.
    const asked: CellTable = [["Margin to each window", "not asked"]];
    const check = (one: Judged[]) => row(one, "Camp", "Input above lowest")["Verdict"];
    assert.equal(check(compare(feed(2), feed(1), asked)), "now holds");
    assert.equal(check(compare(feed(1), feed(2), asked)), "now fails");
  });

  it("line up items by name, and say what only one has", () => {
    const rows = compare(feed(2), feed(2, 10, "Hut"));
    assert.equal(row(rows, "Camp", "Input V")["Verdict"], "only in A");
    assert.equal(row(rows, "Camp", "Input V")["B"], "–");
    assert.equal(row(rows, "Hut", "Input V")["Verdict"], "only in B");
    assert.equal(row(rows, "Cable", "Loss W")["Verdict"], "same");
    const renamed = compare(feed(2), feed(2, 10, "  CAMP "));
    assert.equal(row(renamed, "Camp", "Input V")["Verdict"], "same");
  });

  it("draw no conclusion from cases that only one has an answer in", () => {
    // 380²/(4 · 12 Ω) = 3008 W at most arrives on the lowest supply, 400²/(4 · 12 Ω) = 3333 W on the nominal one.
    const power = feed(12, 3100).map((cells) =>
      cells.map((cell) => (cell === "current load" ? "power load" : cell)),
    );
    const rows = compare(power, feed(1, 5));
    assert.equal(row(rows, "Whole feed", "Cases solved, of nine")["Verdict"], "better");
    for (const figure of ["Highest loss", "Checks that fail", "Checks not determined"])
      assert.equal(row(rows, "Whole feed", figure)["Verdict"], "not determined", figure);
    assert.equal(row(rows, "Camp", "Input V")["Verdict"], "differs");
  });

  it("compare masses only where every one is entered, and prices of one currency", () => {
    const withMass = (own: Cell, price: Cell): CellTable =>
      feed(2).map((cells, at) => [
        ...cells,
        ...(at === 0 ? ["Mass (kg)", "Price"] : at === 2 ? [own, price] : ["", at === 1 ? 5 : ""]),
      ]);
    const rows = (b: CellTable, asked: CellTable = []) =>
      compare(withMass(4, 10), b, [["Currency", "EUR"], ...asked]);
    const mass = row(rows(withMass(6, 12)), "Whole feed", "Mass");
    assert.deepEqual([mass["A"], mass["B"], mass["Verdict"]], [4, 6, "worse"]);
    const price = row(rows(withMass(6, 12)), "Whole feed", "Price");
    assert.deepEqual([price["A"], price["B"], price["Unit"]], [15, 17, "EUR"]);
    const unknown = row(rows(withMass("", "")), "Whole feed", "Price");
    assert.deepEqual([unknown["B"], unknown["Verdict"]], [5, "not determined"]);
    const other = compare(
      withMass(4, 10),
      withMass(4, 12),
      [["Currency", "EUR"]],
      [["Currency", "CHF"]],
    );
    const two = row(other, "Whole feed", "Price");
    assert.deepEqual(
      [two["Difference"], two["Unit"], two["Verdict"]],
      ["–", "EUR; CHF", "not determined"],
    );
  });

  it("hold B against what is asked of A where nothing is asked of it alone", () => {
    const easy = askedWith(askedFor, { "Efficiency, supply to load": 0.1 });
    const strict = askedWith(askedFor, { "Efficiency, supply to load": 0.999 });
    const rows = compare(table, table, easy, strict);
    assert.equal(row(rows, "Whole feed", "Efficiency")["Verdict"], "now fails");
    const alike = compare(table, table, strict);
    assert.ok(!alike.some(({ Figure }) => Figure === "Efficiency"));
  });

  it("name the table or the range that is refused", () => {
    const blamed = (...args: readonly Argument[]) => {
      const outcome = evaluate("CHAIN_COMPARE", args);
      assert.ok(!outcome.ok);
      return outcome.argument;
    };
    const bad: CellTable = [["No such header"], ["Bus"]];
    assert.equal(blamed(bad, feed(2)), "feed table A");
    assert.equal(blamed(feed(2), bad), "feed table B");
    assert.equal(blamed(feed(2), feed(2), [["Nothing", 1]]), "asked for A");
    assert.equal(blamed(feed(2), feed(2), [], [["Nothing", 1]]), "asked for B");
    assert.equal(blamed(feed(2), feed(2), [], [["Ripple", { error: "#REF!" }]]), "asked for B");
  });

  it("change the sign of every difference where they change places, of any two feeds", () => {
    fc.assert(
      fc.property(randomFeed, randomFeed, (one, other) => {
        const [a, b] = [feedTableOf(one), feedTableOf(other)];
        const swapped = new Map(
          compare(b, a).map((each) => [`${each["Item"]}\n${each["Figure"]}`, each]),
        );
        const rows = compare(a, b);
        assert.equal(swapped.size, rows.length);
        for (const each of rows) {
          const back = swapped.get(`${each["Item"]}\n${each["Figure"]}`)!;
          assert.deepEqual([back["A"], back["B"]], [each["B"], each["A"]]);
          const difference = each["Difference"];
          if (typeof difference === "number")
            assert.equal(number(back, "Difference") + difference, 0);
          const words: Record<string, string> = {
            ...{ better: "worse", worse: "better", "only in A": "only in B" },
            ...{ "only in B": "only in A", "now holds": "now fails", "now fails": "now holds" },
          };
          const word = String(each["Verdict"]);
          if (/^(same|differs)$/.test(word) || word in words)
            assert.equal(back["Verdict"], words[word] ?? word);
        }
      }),
      { numRuns: 60, seed: 20261129 },
    );
  });

  it("begin with the same figures of the whole feed, also where neither has one", () => {
    const names = (rows: Judged[]) =>
      rows.filter(({ Item }) => Item === "Whole feed").map(({ Figure }) => Figure);
    const wanted = COVER_FIGURES.map(({ figure }) => figure);
    assert.deepEqual(names(compare(table, table, askedFor)).slice(0, wanted.length), wanted);
    const rows = compare(feed(2), feed(1));
    assert.deepEqual(names(rows).slice(0, wanted.length), wanted);
    const mass = row(rows, "Whole feed", "Mass");
    assert.deepEqual([mass["A"], mass["B"], mass["Verdict"]], ["–", "–", "in neither"]);
    assert.ok(!rows.some(({ Item, Verdict }) => Item !== "Whole feed" && Verdict === "in neither"));
  });

  it("have a word of their own wherever a check fails in B alone, or holds in B alone", () => {
    const asked: CellTable = [["Margin to each window", "not asked"]];
    const efficiency = (value: Cell): CellTable => [["Efficiency, supply to load", value]];
    const words = (
      a: CellTable,
      b: CellTable,
      item: string,
      check: string,
      inA: CellTable,
      inB = inA,
    ) => String(row(compare(a, b, inA, inB), item, check)["Verdict"]);
    // 370 V and 360 V on the lowest supply, where 365 V is the least.
    const window = "Input above lowest";
    const worse = [
      words(feed(1), feed(2), "Camp", window, asked),
      words(feed(1), feed(2), "Camp", window, []),
      words(feed(1), feed(2, 10, "Hut"), "Hut", window, asked),
      words(feed(1), feed(1), "Whole feed", "Efficiency", efficiency("not asked"), efficiency(1)),
    ];
    assert.deepEqual(worse, [
      "now fails",
      "not determined in A, fails in B",
      "fails, only in B",
      "not asked in A, fails in B",
    ]);
    assert.deepEqual(new Set(["worse", ...worse]), new Set(WORSE_WORDS));
    const better = words(feed(2), feed(1), "Camp", window, asked);
    assert.deepEqual(["better", better], BETTER_WORDS);
  });

  it("show the working of one row's difference", () => {
    const outcome = evaluate("CHAIN_COMPARE", [feed(2), feed(1)]);
    assert.ok(outcome.ok);
    const at = (outcome.value as CellTable).findIndex(
      ([item, figure]) => item === "Cable" && figure === "Loss W",
    );
    const [working, ...more] = outcome.working(at);
    assert.deepEqual(more, []);
    assert.equal(working!.title, "Cable, Loss W: B less A");
    assert.deepEqual(working!.values, { a: 200, b: 100, difference: -100, relative: -0.5 });
  });
});
