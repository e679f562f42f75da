import assert from "node:assert/strict";
import { isDeepStrictEqual } from "node:util";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { type CellRange, type Host, HostError, OccupiedError } from "../../taskpane/hosts/host.js";
import type { CellSnapshot } from "../../taskpane/hosts/files/workbook-snapshot.js";
import { launchChromium } from "../helpers/chromium.js";
import { openVendorPage, VENDOR_ADDRESSES, vendorPageFiles } from "../helpers/vendor-page.js";
import { type ContractHost, describeHost } from "./host-contract.js";
import type { Answer } from "./workbench-page.js";

/** The host in the page, as if it were here. */
class PageHost implements Host {
  readonly namespace = "FEED";
  readonly #changes = new Set<() => void>();
  readonly #selections = new Set<() => void>();

  constructor(
    private readonly page: Page,
    private readonly features: readonly string[],
  ) {}

  insert = (...args: Parameters<Host["insert"]>) =>
    this.call("insert", args) as ReturnType<Host["insert"]>;
  read = (...args: Parameters<Host["read"]>) => this.call("read", args) as ReturnType<Host["read"]>;
  sheets = () => this.call("sheets", []) as ReturnType<Host["sheets"]>;
  used = (...args: Parameters<Host["used"]>) => this.call("used", args) as ReturnType<Host["used"]>;
  formulaCells = (...args: Parameters<Host["formulaCells"]>) =>
    this.call("formulaCells", args) as ReturnType<Host["formulaCells"]>;
  names = () => this.call("names", []) as ReturnType<Host["names"]>;
  selection = () => this.call("selection", []) as ReturnType<Host["selection"]>;
  goTo = (...args: Parameters<Host["goTo"]>) => this.call("goTo", args) as Promise<void>;
  write = (...args: Parameters<Host["write"]>) => this.call("write", args) as Promise<void>;
  edit = (...args: Parameters<Host["edit"]>) => this.call("edit", args) as Promise<void>;
  can = (feature: string) => this.features.includes(feature);

  onChange(listener: () => void): () => void {
    this.#changes.add(listener);
    void this.call("listenToChanges", []);
    return () => void this.call("stop", ["change"]);
  }

  onSelection(listener: () => void): () => void {
    this.#selections.add(listener);
    void this.call("listenToSelection", []);
    return () => void this.call("stop", ["selection"]);
  }

  told(event: "change" | "selection"): void {
    for (const listener of event === "change" ? this.#changes : this.#selections) listener();
  }

  private async call(method: string, args: readonly unknown[]): Promise<unknown> {
    const answer: Answer = await this.page.evaluate(
      ([name, values]) => contractPage.call(name, values),
      [method, args] as const,
    );
    if (!("error" in answer)) return answer.value;
    const { name, message, at } = answer.error;
    if (name === "OccupiedError" && at) throw new OccupiedError(at);
    throw name === "HostError" ? new HostError(message) : new Error(message);
  }
}

describe("in Chromium", () => {
  let browser: Browser;
  let page: Page;
  let faults: readonly string[];
  /** Of the workbook that is open now. */
  let host: PageHost | undefined;
  beforeAll(async () => {
    const files = await vendorPageFiles(join(import.meta.dirname, "workbench-page.ts"));
    browser = await launchChromium();
    ({ page, faults } = await openVendorPage(browser, files));
    await page.exposeFunction("told", (event: "change" | "selection") => host?.told(event));
  });
  afterAll(() => browser.close());

  /** A fresh workbook in the place of the one before, as the workbench replaces one. */
  async function openHost(): Promise<ContractHost & { readonly page: Page }> {
    host = undefined;
    const known = faults.length;
    await page.evaluate((addresses) => openContractPage(addresses), VENDOR_ADDRESSES);
    const features = await page.evaluate(() => contractPage.features);
    host = new PageHost(page, features);
    return {
      page,
      host,
      calculatesMovedNames: false,
      quietMs: 400,
      sheetNames: () => page.evaluate(() => contractPage.sheetNames()),
      undo: () => page.evaluate(() => contractPage.undo()),
      defineConstant: (name, value) =>
        page.evaluate(([wanted, constant]) => contractPage.defineConstant(wanted, constant), [
          name,
          value,
        ] as const),
      noteAt: (range) => page.evaluate((at) => contractPage.noteAt(at), range),
      breakNextInsertion: () => page.evaluate(() => contractPage.breakNextInsertion()),
      async close() {
        assert.deepEqual(faults.slice(known), []);
      },
    };
  }

  describeHost("the workbench", openHost);

  it("reads and saves what follows a spill that shrank, without another edit", async () => {
    const { page, host, close } = await openHost();
    const at = (address: string): CellRange => ({ sheet: "Start", address });
    const read = async () => {
      const [spill, natives] = await host.read([at("C1:C4"), at("E1:E2")]);
      return [spill?.values.flat(), natives?.values.flat()];
    };
    await host.write(at("A1:A3"), [[1], [3], [2]]);
    await host.write(at("B1"), [["=SORT(FILTER(A1:A4,A1:A4>0))"]]);
    await host.write(at("C1"), [["=FILTER(B1:B9,B1:B9>0)*10"]]);
    await host.write(at("E1:E2"), [["=SUM(C1:C9)"], ['=COUNTIF(B1:B9,">0")']]);
    const before = [
      [10, 20, 30, ""],
      [60, 3],
    ];
    assert.deepEqual(await read(), before);
    // The first notice with anything new; one of an earlier edit may still be on its way.
    let isTold = false;
    const told = new Promise<unknown>((resolve, reject) =>
      host.onChange(() => {
        // Later notices may come while the page is being closed.
        if (isTold) return;
        read().then((now) => {
          if (isDeepStrictEqual(now, before)) return;
          isTold = true;
          resolve(now);
        }, reject);
      }),
    );
    await host.write(at("A3"), [[0]], { overwrite: true });
    const shrunk = [
      [10, 30, "", ""],
      [40, 2],
    ];
    assert.deepEqual(await read(), shrunk);
    assert.deepEqual(await told, shrunk);

    // Saved at once, before what was written is calculated.
    const written = host.write(at("A2"), [[0]], { overwrite: true });
    const saved = await page.evaluate(() => contractPage.call("savedCells", []));
    assert.ok("value" in saved);
    const cells = saved.value as readonly CellSnapshot[];
    assert.deepEqual(
      ["C1", "C2", "E1", "E2"].map((address) => cells.find((cell) => cell.at === address)?.value),
      [10, undefined, 10, 1],
    );
    await written;
    await close();
  });
});
