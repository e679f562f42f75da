import assert from "node:assert/strict";
import { afterEach, beforeEach, describe, it, vi } from "vitest";
import { FILE_LIMITS, FileRefusedError } from "../../../taskpane/hosts/files/file-limits.js";
import type { FromFiles, ToFiles } from "../../../taskpane/hosts/files/file-messages.js";
import { readFile } from "../../../taskpane/hosts/files/file-run.js";

/** Threads that were started, each as the test lets it answer. */
const started: Thread[] = [];

class Thread {
  onmessage?: (event: { data: FromFiles }) => void;
  onerror?: (event: { message: string }) => void;
  isEnded = false;
  readonly asked: ToFiles[] = [];

  constructor() {
    started.push(this);
  }

  postMessage(question: ToFiles): void {
    this.asked.push(question);
  }

  terminate(): void {
    this.isEnded = true;
  }
}

beforeEach(() => {
  started.length = 0;
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  vi.stubGlobal("Worker", Thread);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function startedReading() {
  const outcome = readFile(new Blob(["anything"])).then(
    () => "opened",
    (error: unknown) => error,
  );
  // Until the file's bytes are there; no time passes meanwhile.
  while (!started[0]?.asked.length) await new Promise((done) => setImmediate(done));
  const [thread] = started;
  assert.ok(thread);
  return { outcome, thread };
}

async function assertRefused(outcome: Promise<unknown>, says: RegExp) {
  const error = await outcome;
  assert.ok(error instanceof FileRefusedError, String(error));
  assert.match(error.message, says);
}

describe("a file that is read in a thread of its own", () => {
  it("is given up after 10 s, and the thread is ended", async () => {
    const { outcome, thread } = await startedReading();
    await vi.advanceTimersByTimeAsync(FILE_LIMITS.readMs - 1);
    assert.equal(thread.isEnded, false);
    await vi.advanceTimersByTimeAsync(1);
    await assertRefused(outcome, /longer than 10 s/);
    assert.equal(thread.isEnded, true);
  });

  it("is refused when the thread breaks, which is ended all the same", async () => {
    const { outcome, thread } = await startedReading();
    thread.onerror?.({ message: "out of memory" });
    await assertRefused(outcome, /out of memory/);
    assert.equal(thread.isEnded, true);
  });

  it("hands on a refusal in its own words", async () => {
    const { outcome, thread } = await startedReading();
    thread.onmessage?.({ data: { kind: "refused", message: "Too odd." } });
    await assertRefused(outcome, /^Too odd\.$/);
    assert.equal(thread.isEnded, true);
  });

  it("ends its thread when it is opened", async () => {
    const { outcome, thread } = await startedReading();
    const file = { snapshot: { sheets: [], names: [] }, leftOut: [] };
    thread.onmessage?.({ data: { kind: "opened", file } });
    assert.equal(await outcome, "opened");
    assert.equal(thread.isEnded, true);
  });

  it("starts no thread for a file that is too large", async () => {
    const size = FILE_LIMITS.packedBytes + 1;
    await assertRefused(
      readFile(new Blob([new Uint8Array(size)])).catch((error) => error),
      /20,000,000 bytes/,
    );
    assert.equal(started.length, 0);
  });
});
