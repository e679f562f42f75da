import assert from "node:assert/strict";
import { afterEach, beforeEach, describe, it } from "vitest";
import { ribbonCommands } from "../../taskpane/pages/excel/ribbon-commands.js";
import shortcuts from "../../taskpane/pages/excel/shortcuts.json" with { type: "json" };

interface Command {
  (event?: { completed(): void } | null): void;
}

describe("the ribbon's commands", () => {
  let associated: Map<string, Command>;
  /** What happened, in its order. */
  let course: string[];
  let failures: unknown[];
  let show: () => Promise<void>;

  /** Tests in the same process have an Office of their own. */
  const { Office: others } = globalThis as { Office?: unknown };

  beforeEach(() => {
    associated = new Map();
    course = [];
    failures = [];
    show = async () => void course.push("pane shown");
    Object.assign(globalThis, {
      Office: {
        actions: { associate: (id: string, run: Command) => associated.set(id, run) },
        addin: { showAsTaskpane: () => show() },
      },
    });
  });
  afterEach(() => {
    Object.assign(globalThis, { Office: others });
  });

  const register = () => ribbonCommands((error) => failures.push(error));
  const pane = { choose: (view: string) => void course.push(view) };
  const event = { completed: () => void course.push("told") };
  const settled = () => new Promise((done) => setTimeout(done));

  it("are there at once, one for each button and shortcut", () => {
    register();
    assert.deepEqual(
      [...associated.keys()],
      shortcuts.actions.map(({ id }) => id),
    );
  });

  it("show the pane, tell Excel so, and choose the view", async () => {
    register()(pane);
    for (const run of associated.values()) run(event);
    await settled();
    for (const view of ["feed", "warnings", "working"]) assert.ok(course.includes(view), view);
    assert.deepEqual(course.slice(-3), ["feed", "warnings", "working"]);
    assert.deepEqual(failures, []);
  });

  it("wait for a pane that is only being made, without keeping Excel's button busy", async () => {
    const give = register();
    associated.get("Warnings")?.(event);
    await settled();
    assert.deepEqual(course, ["pane shown", "told"]);
    give(pane);
    await settled();
    assert.deepEqual(course, ["pane shown", "told", "warnings"]);
  });

  it("work for keys, of which Excel wants no word", async () => {
    register()(pane);
    associated.get("Working")?.();
    associated.get("Feed")?.(null);
    await settled();
    assert.deepEqual(course, ["pane shown", "pane shown", "working", "feed"]);
    assert.deepEqual(failures, []);
  });

  it("tell the reader and release the button where the pane cannot be shown", async () => {
    const refusal = new Error("no pane");
    show = async () => {
      throw refusal;
    };
    register()(pane);
    associated.get("Feed")?.(event);
    await settled();
    assert.deepEqual(course, ["told"]);
    assert.deepEqual(failures, [refusal]);
  });
});
