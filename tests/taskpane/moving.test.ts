/** A budget of 0.2 is offered to be moved; the offer does it, and says what was left behind. */
import assert from "node:assert/strict";
import { createElement } from "preact";
import { afterAll, afterEach, beforeAll, beforeEach, describe, it, vi } from "vitest";
import { acceptances, judgedWarnings } from "../../taskpane/budgets/warnings/acceptances.js";
import { warningsOf } from "../../taskpane/budgets/warnings/warnings.js";
import { findBudgets } from "../../taskpane/workbook/found-budgets.js";
import { drawInto } from "../../taskpane/views/parts/tools.js";
import { MovingOffer } from "../../taskpane/views/warnings/moving-offer.js";
import { type FrozenWorkbooks, thawedPlans } from "../budgets/frozen-release.js";
import workbooksOf02 from "../budgets/workbooks-of-0.2.json" with { type: "json" };
import { HeadlessHost } from "../helpers/headless-host.js";

const LONGEST_MS = 120_000;

/** As much of a page as the offer is drawn with. */
class PlainNode {
  readonly nodeType: number = 1;
  readonly childNodes: PlainNode[] = [];
  parentNode: PlainNode | null = null;
  hidden = false;
  data = "";
  onclick: (event: object) => void = () => undefined;
  constructor(readonly localName: string) {}
  get nextSibling(): PlainNode | null {
    const beside = this.parentNode?.childNodes ?? [];
    return beside[beside.indexOf(this) + 1] ?? null;
  }
  get firstChild(): PlainNode | null {
    return this.childNodes[0] ?? null;
  }
  insertBefore(node: PlainNode, before: PlainNode | null) {
    node.remove();
    const at = before ? this.childNodes.indexOf(before) : this.childNodes.length;
    this.childNodes.splice(at, 0, node);
    node.parentNode = this;
  }
  appendChild(node: PlainNode) {
    this.insertBefore(node, null);
  }
  removeChild(node: PlainNode) {
    node.remove();
  }
  remove() {
    const beside = this.parentNode?.childNodes;
    beside?.splice(beside.indexOf(this), 1);
    this.parentNode = null;
  }
  setAttribute() {}
  removeAttribute() {}
  addEventListener(_: string, listener: (this: PlainNode, event: object) => void) {
    this.onclick = (event) => listener.call(this, event);
  }
  get textContent(): string {
    return this.localName === "#text"
      ? this.data
      : this.childNodes.map((node) => node.textContent).join("\n");
  }
  all(name: string): PlainNode[] {
    const own = this.localName === name ? [this] : [];
    return [...own, ...this.childNodes.flatMap((node) => node.all(name))];
  }
  button(label: string): PlainNode[] {
    return this.all("button").filter(({ textContent }) => textContent === label);
  }
  click() {
    this.onclick({ type: "click" });
  }
}

const plainDocument = {
  createElement: (name: string) => new PlainNode(name),
  createElementNS: (_: string, name: string) => new PlainNode(name),
  createTextNode: (data: string) => Object.assign(new PlainNode("#text"), { data, nodeType: 3 }),
};

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
    vi.stubGlobal("document", plainDocument);
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
      const shown = new PlainNode("div");
      const draw = () =>
        drawInto(
          shown as unknown as HTMLElement,
          { host, failed: (error) => failures.push(error) },
          createElement(MovingOffer, { old }),
        );
      draw();
      draw();
      const buttons = shown.button("Move Ridge into schedules");
      assert.equal(buttons.length, 1);
      buttons[0]!.click();
      await vi.waitFor(
        () => {
          assert.deepEqual(failures, []);
          assert.match(shown.textContent, /is now in schedules, from sheet Inputs 2 on/);
        },
        { timeout: LONGEST_MS, interval: 200 },
      );
      for (const line of [
        /Its insulation lasts up to: 70 °C/,
        /acceptance of “Valley bus is above the band”: locked hut, R\. Amsel/,
        /acceptance of “Found 0\.08 against 0\.05”: short, R\. Amsel/,
      ])
        assert.match(shown.textContent, line);
      shown.button("Go to Inputs 2")[0]!.click();
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
