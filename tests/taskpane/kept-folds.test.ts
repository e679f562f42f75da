/** What a reader has folded open stays open when the list is written again after an edit. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { FOLD, keepFolds } from "../../taskpane/views/parts/kept-list.js";

/** As much of an element as folding needs. */
class Fold {
  constructor(
    private readonly key: string,
    public open: boolean,
  ) {}
  getAttribute(name: string) {
    return name === FOLD ? this.key : null;
  }
  hasAttribute(name: string) {
    return name === "open" && this.open;
  }
  toggleAttribute(name: string, on: boolean) {
    assert.equal(name, "open");
    this.open = on;
    return on;
  }
}

function shownAfter(before: readonly Fold[], after: readonly Fold[]) {
  let shown = before;
  const within = {
    querySelectorAll(what: string) {
      assert.equal(what, `details[${FOLD}]`);
      return shown;
    },
  };
  keepFolds(within as unknown as ParentNode, () => (shown = after));
  return after.map(({ open }) => open);
}

describe("a list that is written again", () => {
  it("leaves open what was opened, and shut what was shut", () => {
    const before = [new Fold("items", false), new Fold("citation", true)];
    const after = [new Fold("items", true), new Fold("citation", false)];
    assert.deepEqual(shownAfter(before, after), [false, true]);
  });

  it("shows what is new as it comes", () => {
    assert.deepEqual(
      shownAfter([new Fold("items", true)], [new Fold("citation", false), new Fold("new", true)]),
      [false, true],
    );
  });
});
