/** A budget of 0.2 is offered to be moved; the offer does it, and says what was left behind. */
import assert from "node:assert/strict";
import { afterAll, afterEach, beforeAll, beforeEach, describe, it, vi } from "vitest";
import { acceptances, judgedWarnings } from "../../taskpane/budgets/warnings/acceptances.js";
import { warningsOf } from "../../taskpane/budgets/warnings/warnings.js";
import { findBudgets } from "../../taskpane/workbook/found-budgets.js";
import { movingOffer } from "../../taskpane/views/warnings/moving-offer.js";
import { type FrozenWorkbooks, thawedPlans } from "../budgets/frozen-release.js";
import workbooksOf02 from "../budgets/workbooks-of-0.2.json" with { type: "json" };
import { HeadlessHost } from "../helpers/headless-host.js";

const LONGEST_MS = 120_000;

/** As much of an element as the offer needs. */
class PlainElement {
  hidden = false;
  private parts: (PlainElement | string)[] = [];
  private press: () => void = () => undefined;
  constructor(readonly tag: string) {}
  setAttribute(name: string, value: string) {
    if (name === "hidden") this.hidden = value === "";
  }
  append(...parts: (PlainElement | string)[]) {
    this.parts.push(...parts);
  }
  replaceChildren(...parts: (PlainElement | string)[]) {
    this.parts = parts;
  }
  addEventListener(_: string, press: () => void) {
    this.press = press;
  }
  set textContent(text: string) {
    this.parts = [text];
  }
  get textContent(): string {
    return this.parts
      .map((part) => (typeof part === "string" ? part : part.textContent))
      .join("\n");
  }
  named(label: string): PlainElement[] {
    const own = this.tag === "button" && this.textContent === label ? [this] : [];
    return [
      ...own,
      ...this.parts.flatMap((one) => (typeof one === "string" ? [] : one.named(label))),
    ];
  }
  click() {
    this.press();
  }
}

const plan = thawedPlans(workbooksOf02 as unknown as FrozenWorkbooks).find(
  ({ id }) => id === "ridge-top-observatory",
)!;

describe("a budget of 0.2 in the workbook", () => {
  const host = new HeadlessHost();
  beforeAll(async () => {
    await host.insert(plan);
    // As 0.2 wrote them: a check that finds the same now, one that found something else then, and what is no check.
    await host.write({ sheet: "Notes", address: "A61:D63" }, [
      [
        "check Stored energy Summit stage",
        "R. Amsel, 2026-03-02",
        "covers are interlocked",
        "Stored energy: 31.94 J where at most 20 J is asked for. Found 31.94 J against 20 J",
      ],
      ["check Drop Cable to the summit", "R. Amsel", "short", "Found 0.08 against 0.05"],
      ["band Valley bus", "R. Amsel", "locked hut", "Valley bus is above the band"],
    ]);
  }, LONGEST_MS);
  afterAll(() => {
    host.dispose();
  });
  beforeEach(() => {
    vi.stubGlobal("document", { createElement: (tag: string) => new PlainElement(tag) });
  });
  afterEach(() => {
    vi.unstubAllGlobals();
  });

  it(
    "is told of once, and moved by the button, with what it could not carry",
    async () => {
      const { old, budgets } = await findBudgets(host);
      assert.deepEqual([old.map(({ stem }) => stem), budgets], [["Ridge"], []]);
      const failures: unknown[] = [];
      const offer = movingOffer(host, (error) => failures.push(error));
      const shown = offer.element as unknown as PlainElement;
      assert.equal(shown.hidden, true);
      offer.show(old);
      offer.show(old);
      assert.equal(shown.hidden, false);
      const buttons = shown.named("Move Ridge into schedules");
      assert.equal(buttons.length, 1);
      buttons[0]!.click();
      await vi.waitFor(
        () => {
          assert.deepEqual(failures, []);
          assert.match(shown.textContent, /stands in schedules, from Inputs 2 on/);
        },
        { timeout: LONGEST_MS, interval: 200 },
      );
      for (const line of [
        /Its insulation lasts up to: 70 °C/,
        /acceptance of “Valley bus is above the band”: locked hut, R\. Amsel/,
        /acceptance of “Found 0\.08 against 0\.05”: short, R\. Amsel/,
      ])
        assert.match(shown.textContent, line);
      shown.named("Go to Inputs 2")[0]!.click();
      assert.deepEqual(host.shown, { sheet: "Inputs 2", address: "A1" });
    },
    LONGEST_MS,
  );

  it("stays beside the moved one, whose check is accepted as it was", async () => {
    const { old, budgets } = await findBudgets(host);
    assert.deepEqual(
      [old, budgets].map((found) => found.map(({ stem }) => stem)),
      [["Ridge"], ["RidgeMoved"]],
    );
    const [moved] = budgets;
    const accepted = acceptances(moved!.ranges["Accepted"]);
    assert.deepEqual(
      accepted.map(({ accepted: by, reason }) => [by, reason]),
      [["R. Amsel, 2026-03-02", "covers are interlocked"]],
    );
    const energy = judgedWarnings(warningsOf(moved!), moved!).filter(
      ({ warning }) => warning.check === "Stored energy" && warning.severity === "warning",
    );
    assert.deepEqual(
      energy.map(({ isAccepted }) => isAccepted),
      [true],
    );
  });
});
