import assert from "node:assert/strict";
import axe from "axe-core";
import type { AxeResults } from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, it } from "vitest";
import type { CellRange, CellWrite } from "../../taskpane/hosts/host.js";
import { launchChromium } from "../helpers/chromium.js";
import {
  bundlePane,
  openPane,
  type PaneBundle,
  type PaneLook,
  panePage,
  type PanePage,
} from "./open-pane.js";
import "./pane-page-window.js";

let browser: Browser;
let bundle: PaneBundle;
let opened: PanePage;
let page: Page;

beforeAll(async () => {
  [browser, bundle] = await Promise.all([launchChromium(), bundlePane()]);
  page = await panePage(browser);
});

afterAll(async () => {
  await browser.close();
});

async function open(look: PaneLook = {}): Promise<void> {
  opened = await openPane(page, bundle, look);
}

afterEach(() => assert.deepEqual(opened.complaints, []));

const insertBudget = (index: number) =>
  page.evaluate(async (at) => {
    const { host, plans } = window.paneTest;
    const plan = plans[at];
    if (plan) await host.insert(plan);
  }, index);

const goTo = (sheet: string, address: string) =>
  page.evaluate((range: CellRange) => window.paneTest.host.goTo(range), {
    sheet,
    address,
  });

const put = (sheet: string, address: string, content: CellWrite) =>
  page.evaluate(
    ([range, value]) => window.paneTest.host.write(range, [[value]], { overwrite: true }),
    [{ sheet, address }, content] as const,
  );

const formulaAt = (sheet: string, address: string) =>
  page.evaluate(async (range) => (await window.paneTest.host.read([range]))[0]?.formulas[0]?.[0], {
    sheet,
    address,
  });

const valueAt = (sheet: string, address: string) =>
  page.evaluate(async (range) => (await window.paneTest.host.read([range]))[0]?.values[0]?.[0], {
    sheet,
    address,
  });

const selection = () => page.evaluate(() => window.paneTest.host.selection());
const answer = () => page.getByRole("group", { name: "Selected cell" });
const tab = (name: RegExp) => page.getByRole("tab", { name });
const goButtons = () => page.getByRole("button", { name: /^Go to \S+, / });

const focusedName = () =>
  page.evaluate(() => {
    const { activeElement } = document;
    return activeElement?.getAttribute("aria-label") ?? activeElement?.textContent?.trim() ?? "";
  });

async function openFunction(id: string): Promise<void> {
  await page.getByRole("searchbox").fill(id);
  const name = page.locator("summary").filter({ hasText: new RegExp(`^${id}$`) });
  if (!(await name.evaluate((summary) => summary.parentElement?.hasAttribute("open"))))
    await name.click();
}

async function fill(values: Readonly<Record<string, string>>): Promise<void> {
  for (const [name, value] of Object.entries(values))
    await page
      .locator("input")
      .and(page.getByLabel(new RegExp(`^${name}\\b`)))
      .fill(value);
}

const pressInsert = () => page.getByRole("button", { name: "Insert at the selected cell" }).click();

describe("the answer for the selected cell", () => {
  it("gives value and unit", async () => {
    await open();
    await insertBudget(0);
    await goTo("Budget", "B1");
    // 3.4806 Ω of the run at 40 °C (IEC 60228: 4.61 Ω/km) times 12.5 A.
    await answer().getByText("43.51 V").waitFor();
    assert.match(await answer().innerText(), /FEED\.CONDUCTOR_DROP/);
  });

  it("gives the message of a refused call, and a new one when the cell changes", async () => {
    await open();
    await insertBudget(0);
    await goTo("Budget", "B1");
    await put("Inputs", "B4", -3);
    await answer()
      .getByText(/#VALUE! current must be .+, got -3/)
      .waitFor();
    await put("Inputs", "B4", 12.5);
    await answer().getByText("43.51 V").waitFor();
  });

  it("gives the message of the innermost refused call", async () => {
    await open();
    await put("Start", "C7", '=1+FEED.CONDUCTOR_DROP(FEED.CONDUCTOR_AREA("thick"),350,"4 mm²",40)');
    await goTo("Start", "C7");
    await answer().getByText('in FEED.CONDUCTOR_AREA("thick")').waitFor();
    assert.match(await answer().innerText(), /FEED\.CONDUCTOR_AREA: #VALUE! size .*thick/);
  });

  it("shows what stands in a cell as text, never as markup", async () => {
    await open();
    const markup = "<img src=x onerror=\"document.title='run'\">";
    await insertBudget(0);
    await put("Budget", "A6", markup);
    await put("Start", "A1", `=FEED.CONDUCTOR_AREA("${markup.replaceAll('"', '""')}")`);
    await tab(/Warnings/).click();
    await page
      .getByRole("tabpanel", { name: /Warnings/ })
      .getByText(markup, { exact: true })
      .waitFor();
    await goTo("Start", "A1");
    await answer()
      .getByText(/<img src=x/)
      .waitFor();
    assert.equal(await page.locator("#pane img").count(), 0);
    assert.equal(await page.title(), "Pane");
  });
});

describe("inserting a budget", () => {
  it("says what it adds, and then what it added", async () => {
    await open();
    await tab(/Insert/).click();
    await page.getByText("Adds 2 new sheets: Inputs, Budget. Nothing is overwritten.").waitFor();
    const insert = page.getByRole("button", { name: "Insert the budget" });
    await page.getByRole("radio", { name: "Jetty lights" }).check();
    await insert.click();
    await page.getByText("Inserted “Jetty lights” on the sheets Inputs, Budget.").waitFor();
    await insert.click();
    await page.getByText("Inserted “Jetty lights” on the sheets Inputs 2, Budget 2.").waitFor();
    await page.getByRole("button", { name: "Go to 'Inputs 2'!A1" }).click();
    assert.deepEqual(await selection(), { sheet: "Inputs 2", address: "A1" });
  });

  it("says that nothing was inserted when it fails half-way", async () => {
    await open();
    await tab(/Insert/).click();
    await page.evaluate(() => {
      window.paneTest.host.beforeSheet = (index) => {
        if (index === 1) throw new Error("the workbook is protected");
      };
    });
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByText("Nothing was inserted: the workbook is protected").waitFor();
    assert.deepEqual(await page.evaluate(() => window.paneTest.host.sheetNames()), ["Start"]);
  });
});

describe("a command that failed", () => {
  const failure = () => page.getByRole("alert").filter({ hasText: "That did not work" });

  async function failToLayOut(): Promise<void> {
    await insertBudget(0);
    await goTo("Budget", "B1");
    await tab(/Working/).click();
    await page.evaluate(() => {
      window.paneTest.host.beforeSheet = () => {
        throw new Error("the workbook is protected");
      };
    });
    await page.getByRole("button", { name: "Lay out on a new sheet" }).click();
    await failure().waitFor();
  }

  it("stays told whatever changes in the sheets, and while its reader looks around", async () => {
    await open();
    await failToLayOut();
    await put("Inputs", "B4", 12);
    await goTo("Budget", "A1");
    await tab(/Warnings/).click();
    await tab(/Working/).click();
    await page.waitForTimeout(700);
    assert.match(await failure().innerText(), /the workbook is protected/);
  });

  it("is told until it is closed, or until the next command", async () => {
    await open();
    await failToLayOut();
    await page.getByRole("button", { name: "Close this message" }).click();
    assert.equal(await failure().count(), 0);
    await page.getByRole("button", { name: "Lay out on a new sheet" }).click();
    await failure().waitFor();
    await page.getByRole("button", { name: "Add to the report" }).click();
    assert.equal(await failure().count(), 0);
  });
});

describe("searching the functions", () => {
  it("finds by name, purpose and family, every word", async () => {
    await open();
    await tab(/Insert/).click();
    const shown = () => page.locator("summary:visible code").allInnerTexts();
    const search = page.getByRole("searchbox");
    const all = await shown();
    await search.fill("conductor drop");
    assert.deepEqual(await shown(), [
      "CONDUCTOR_DROP",
      "CONDUCTOR_DROP_DISTRIBUTED",
      "CONDUCTOR_SIZE",
    ]);
    await search.fill("safety bands");
    assert.ok((await shown()).length > 0);
    assert.ok((await shown()).every((id) => id.startsWith("SAFETY_")));
    await search.fill("turns into heat");
    assert.ok((await shown()).includes("CONDUCTOR_LOSS"));
    await search.fill("zebra");
    assert.deepEqual(await shown(), []);
    await page.getByText(/^No function matches/).waitFor();
    await search.fill("");
    assert.deepEqual(await shown(), all);
  });

  it("describes each function: signature, arguments with units, example", async () => {
    await open();
    await tab(/Insert/).click();
    await openFunction("CONDUCTOR_DROP");
    await page.getByText(/^CONDUCTOR_DROP\(current, length, size, temperature/).waitFor();
    await page.getByText(/=FEED\.CONDUCTOR_DROP\(10,50,"10 mm²",70\)/).waitFor();
    await page.getByRole("textbox", { name: "length m required" }).waitFor();
    const size = page.getByRole("combobox", { name: "size required" });
    const offered = await size.evaluate((input) =>
      [...((input as HTMLInputElement).list?.options ?? [])].map(({ value }) => value),
    );
    // Nominal areas of IEC 60228, and gauges.
    for (const one of ["2.5 mm²", "10 mm²", "12 AWG"]) assert.ok(offered.includes(one), one);
  });
});

describe("inserting a function", () => {
  it("writes it at the selected cell, from typed values and selected cells", async () => {
    await open();
    await tab(/Insert/).click();
    await insertBudget(0);
    await openFunction("CONDUCTOR_DROP");
    await goTo("Inputs", "B4");
    await page.getByRole("button", { name: "Use selection for current" }).click();
    await fill({ length: "350 m", size: "4 mm²", temperature: "40,0" });
    await goTo("Budget", "F3");
    await page.getByText("Selected: Budget!F3").waitFor();
    const preview = page.locator(".feed-preview");
    await preview.getByText("43.51 V").waitFor();
    await pressInsert();
    await page.getByText("The formula is in Budget!F3.").waitFor();
    assert.equal(await formulaAt("Budget", "F3"), '=FEED.CONDUCTOR_DROP(Inputs!B4,350,"4 mm²",40)');
  });

  it("asks before it overwrites, inside the pane, and keeps on Escape", async () => {
    await open();
    await tab(/Insert/).click();
    await openFunction("CONDUCTOR_AREA");
    await put("Start", "D4", "mine");
    await goTo("Start", "D4");
    await page.getByText("Selected: Start!D4").waitFor();
    await fill({ size: "AWG 12" });
    await pressInsert();
    const question = page.getByRole("alertdialog", {
      name: "Start!D4 is not empty. Overwrite it?",
    });
    await question.waitFor();
    assert.equal(await focusedName(), "Keep what is there");
    await page.keyboard.press("Escape");
    await page.getByText("Start!D4 is as it was.").waitFor();
    assert.equal(await formulaAt("Start", "D4"), "");
    await pressInsert();
    await question.getByRole("button", { name: "Overwrite" }).click();
    await page.getByText("The formula is in Start!D4.").waitFor();
    assert.equal(await formulaAt("Start", "D4"), '=FEED.CONDUCTOR_AREA("AWG 12")');
    assert.equal(await focusedName(), "Insert at the selected cell");
  });

  it("goes to the first argument that is missing or wrong, and says why", async () => {
    await open();
    await tab(/Insert/).click();
    await openFunction("CONDUCTOR_DROP");
    await fill({ current: "10" });
    await pressInsert();
    await page.getByText("length is required.").waitFor();
    const length = page.getByRole("textbox", { name: /^length/ });
    assert.equal(await length.getAttribute("aria-invalid"), "true");
    assert.ok(await length.evaluate((input) => input === document.activeElement));
    await fill({ length: "1,250" });
    await pressInsert();
    await page.getByText(/“1,250” can be read in two ways/).waitFor();
    assert.equal(await formulaAt("Start", "A1"), "");
  });

  it("offers the words of an argument that takes a word or something else", async () => {
    await open();
    await tab(/Insert/).click();
    await openFunction("SUPPLY_RECTIFIED");
    const tolerance = page.getByRole("combobox", { name: /^tolerance/ });
    const offered = await tolerance.evaluate((input) =>
      [...((input as HTMLInputElement).list?.options ?? [])].map(({ value }) => value),
    );
    assert.deepEqual(offered, ["exact"]);
    await fill({ "line V rms": "230" });
    await tolerance.fill("exact");
    await page.getByText('=FEED.SUPPLY_RECTIFIED(230,"exact")').waitFor();
  });

  it("shows a call as the user's spreadsheet writes it, and hands it over in English", async () => {
    await open();
    await page.evaluate(() => {
      window.paneTest.host.shownFormula = (formula) =>
        formula.replaceAll(",", ";").replaceAll("2.5", "2,5");
    });
    await tab(/Insert/).click();
    await openFunction("SUPPLY_LIMIT");
    await fill({ "open-circuit V": "400", resistance: "2,5" });
    await page.getByText("=FEED.SUPPLY_LIMIT(400;2,5)").waitFor();
    await pressInsert();
    await page.getByText("The formula is in Start!A1.").waitFor();
    assert.equal(await formulaAt("Start", "A1"), "=FEED.SUPPLY_LIMIT(400,2.5)");
    await goTo("Start", "A1");
    await tab(/Working/).click();
    await page.getByRole("heading", { name: "FEED.SUPPLY_LIMIT(400;2,5)" }).waitFor();
  });

  it("refuses a cell that is one of the arguments", async () => {
    await open();
    await tab(/Insert/).click();
    await openFunction("CONDUCTOR_AREA");
    await goTo("Start", "B2");
    await page.getByRole("button", { name: "Use selection for size" }).click();
    await pressInsert();
    await page.getByText(/^Start!B2 is one of the arguments/).waitFor();
    assert.equal(await formulaAt("Start", "B2"), "");
  });

  it("refuses a place in which a spilled result has no room", async () => {
    await open();
    await tab(/Insert/).click();
    const feed: readonly (readonly CellWrite[])[] = [
      ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load"],
      ["Hut", "", "supply", 400, 2, ""],
      ["Mast", "Hut", "power load", "", "", 500],
    ];
    await page.evaluate(
      (cells) => window.paneTest.host.write({ sheet: "Start", address: "A1:F3" }, cells),
      feed,
    );
    await put("Start", "K7", "in the way");
    await goTo("Start", "H5");
    await openFunction("CHAIN_SOLVE");
    await fill({ "feed table": "A1:F3" });
    await pressInsert();
    await page.getByText(/The result needs H5:S7, and K7 in it is not empty/).waitFor();
    assert.equal(await formulaAt("Start", "H5"), "");
  });
});

describe("the warnings", () => {
  it("says plainly when there is no budget, and leads to one", async () => {
    await open();
    await tab(/Warnings/).click();
    await page
      .getByRole("tabpanel", { name: "Warnings" })
      .getByText("There is no budget in this workbook yet.")
      .waitFor();
    await page.getByRole("button", { name: "Choose a budget to insert" }).click();
    assert.equal(await tab(/Insert/).getAttribute("aria-selected"), "true");
    assert.equal(await focusedName(), "Insert");
  });

  it("says when there is nothing to warn of, and that this is no statement of safety", async () => {
    await open();
    await insertBudget(1);
    await tab(/Warnings 0/).click();
    await page.getByText("No warnings from the checks of this budget.").waitFor();
    await page.getByText(/not a statement of safety/).waitFor();
  });

  it("says where sheets are calculated only when they are asked to be, and asks for those of the budgets", async () => {
    await open();
    await page.evaluate(() => {
      const asked: string[] = [];
      const calculation = {
        isManual: () => true,
        calculate: async (sheets: readonly string[]) => void asked.push(...sheets),
      };
      Object.assign(window.paneTest.host, { calculation, asked });
    });
    await tab(/Insert/).click();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByText(/^Inserted .* Calculation is set to manual: press F9/).waitFor();
    await tab(/Warnings 2/).click();
    await page.getByText(/what the sheets show may be older than what was typed/).waitFor();
    await page.getByRole("button", { name: "Calculate the sheets of the budgets" }).click();
    await page.getByText("Excel calculates the sheets now.").waitFor();
    const asked = await page.evaluate(
      () => (window.paneTest.host as unknown as { asked: string[] }).asked,
    );
    assert.ok(asked.length > 0);
    assert.ok(!asked.includes("Start"));
  });

  it("accepts one with a reason that stays in the workbook, until it finds something else", async () => {
    await open();
    await insertBudget(0);
    await tab(/Warnings 2/).click();
    const ask = () =>
      page.getByRole("button", {
        name: "Accept Band in service, Summit bus …",
      });
    await ask().click();
    await page.getByRole("button", { name: "Accept with this reason" }).click();
    await page.getByText(/^Give a reason/).waitFor();
    await page.keyboard.press("Escape");
    assert.equal(await focusedName(), "Accept Band in service, Summit bus …");
    await ask().click();
    await page
      .getByLabel("Band in service, Summit bus: reason, for the reviewer")
      .fill("=enclosed, key with the warden");
    await page.getByLabel("Accepted by (optional)").fill("R. Amsel");
    await page.getByRole("button", { name: "Accept with this reason" }).click();
    await tab(/Warnings 1/).waitFor();
    await page.getByText("1 warning accepted with a reason").click();
    await page
      .getByText(
        /Accepted because: =enclosed, key with the warden \(R\. Amsel, on \d{4}-\d\d-\d\d\)/,
      )
      .waitFor();
    assert.equal(await valueAt("Inputs", "A31"), "Band in service|fails||30");
    assert.equal(await valueAt("Inputs", "C31"), " =enclosed, key with the warden");
    // 56.1 V was accepted, 57 V was not.
    await put("Budget", "D7", 57);
    await tab(/Warnings 2/).waitFor();
    await page.getByText(/^Was accepted because: =enclosed/).waitFor();
    await put("Budget", "D7", 56.1);
    await tab(/Warnings 1/).waitFor();
    await page
      .getByRole("button", {
        name: "Withdraw the acceptance of Band in service, Summit bus",
      })
      .click();
    await tab(/Warnings 2/).waitFor();
    assert.equal(await valueAt("Inputs", "C31"), "");
  });

  it("accepts one item of several that say the same, by its own button, and leaves the others open", async () => {
    await open();
    await insertBudget(0);
    // Valley bus as Summit bus: of one check, limit and weight.
    await put("Budget", "F6", 30);
    await put("Budget", "J6", "warning");
    await tab(/Warnings/).click();
    const warning = page.locator(".feed-finding").filter({ hasText: "Valley bus" });
    await warning.getByRole("button", { name: "Accept Band in service, 2 items …" }).waitFor();
    const item = (name: string) => warning.locator(".feed-items > li").filter({ hasText: name });
    const acceptItem = async (name: string, reason: string) => {
      await item(name)
        .getByRole("button", { name: `Accept ${name} …` })
        .click();
      await page.getByLabel(`${name}: reason, for the reviewer`).fill(reason);
      await page.getByRole("button", { name: "Accept with this reason" }).click();
    };
    await acceptItem("Summit bus", "locked cabinet");
    await item("Summit bus")
      .getByText(/^Accepted because: locked cabinet/)
      .waitFor();
    assert.equal(await valueAt("Inputs", "A31"), "Band in service|fails||30|Summit bus");
    assert.equal(
      await item("Valley bus")
        .getByText(/Accepted because/)
        .count(),
      0,
    );
    assert.equal(await page.getByText(/accepted with a reason/).isVisible(), false);
    await tab(/Warnings 1/).waitFor();
    // What it finds now was not accepted; the other item is as it was.
    await put("Budget", "D7", 57);
    await item("Summit bus")
      .getByText(/^Was accepted because: locked cabinet/)
      .waitFor();
    await put("Budget", "D7", 56.1);
    await acceptItem("Valley bus", "behind the fence");
    await tab(/Warnings 0/).waitFor();
    await page.getByText("1 warning accepted with a reason").click();
    await page.getByRole("button", { name: "Withdraw the acceptance of Valley bus" }).click();
    await tab(/Warnings 1/).waitFor();
    assert.equal(await valueAt("Inputs", "A31"), "Band in service|fails||30|Summit bus");
    assert.equal(await valueAt("Inputs", "A32"), "");
  });

  it("lists number, limit, cell and citation, the gravest first, each severity with its own shape", async () => {
    await open();
    await insertBudget(0);
    await tab(/Warnings 2/).click();
    const items = page.locator(".feed-finding");
    const texts = await items.allInnerTexts();
    const plain = texts.map((text) => text.replace(/\s+/g, " "));
    assert.match(
      plain[0] ?? "",
      /^✖ Danger Band in service Asked: at most 120 V Valley bus fails by 267 ?%: 440 V Worst in: supply highest Go to Budget!I6 Citation .*Accept …$/,
    );
    assert.match(plain[1] ?? "", /^▲ Warning .* at most 30 V Summit bus .*56\.1 V /);
    assert.match(plain[2] ?? "", /^● Note .* Drives fails by 5 ?%: /);
  });

  it("is reached and left by keyboard alone, down to a warning's cell", async () => {
    await open();
    await insertBudget(0);
    await tab(/Warnings 2/).waitFor();
    for (const name of ["First steps", "Feed"]) {
      await page.keyboard.press("Tab");
      assert.equal(await focusedName(), name);
    }
    for (const name of ["Insert", "Warnings 2"]) {
      await page.keyboard.press("ArrowRight");
      assert.equal(await focusedName(), name);
    }
    for (const name of [
      "Go to Budget!I6, Valley bus",
      "Citation",
      "Accept Band in service, Valley bus …",
      "Go to Budget!I7, Summit bus",
    ]) {
      await page.keyboard.press("Tab");
      assert.equal(await focusedName(), name);
    }
    const outline = await page.evaluate(
      () => getComputedStyle(document.activeElement as Element).outlineStyle,
    );
    assert.equal(outline, "solid");
    await page.keyboard.press("Enter");
    assert.deepEqual(await selection(), { sheet: "Budget", address: "I7" });
    for (let back = 0; back < 4; back += 1) await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Home");
    assert.equal(await focusedName(), "Feed");
  });

  it("keeps focus and scroll when it reads anew, and is heard when their number is another", async () => {
    await open({ viewport: { width: 350, height: 400 } });
    await insertBudget(0);
    await tab(/Warnings 2/).click();
    await goTo("Budget", "B1");
    await answer().getByText("43.51 V").waitFor();
    await goButtons().last().focus();
    await page.evaluate(() => {
      window.heard = [];
      const live = document.querySelector("#pane .feed-hidden[role=status]");
      if (!live) throw new Error("no live region");
      new MutationObserver(() => window.heard.push(live.textContent ?? "")).observe(live, {
        childList: true,
        characterData: true,
        subtree: true,
      });
    });
    const scrolled = await page.evaluate(() => scrollY);
    assert.ok(scrolled > 0);
    await put("Budget", "D6", 450);
    await put("Budget", "D7", 57);
    await page.getByText("450 V").waitFor();
    assert.equal(await focusedName(), "Go to Budget!I5, Drives");
    assert.equal(await page.evaluate(() => scrollY), scrolled);
    await page.waitForTimeout(400);
    assert.deepEqual(await page.evaluate(() => window.heard), []);
    await put("Budget", "I7", "holds");
    await tab(/Warnings 1/).waitFor();
    assert.deepEqual(await page.evaluate(() => window.heard), ["1 warning"]);
  });

  it("moves focus to what stands next when the focused warning is gone", async () => {
    await open();
    await insertBudget(0);
    await tab(/Warnings 2/).click();
    await goButtons().nth(1).focus();
    await put("Budget", "I7", "holds");
    await tab(/Warnings 1/).waitFor();
    assert.equal(await focusedName(), "Go to Budget!I5, Drives");
  });

  it("says that the workbook could not be read, and reads it when asked again", async () => {
    await open();
    await insertBudget(0);
    await tab(/Warnings 2/).click();
    await page.evaluate(() => {
      const { host } = window.paneTest;
      const { names } = host;
      host.names = async () => {
        host.names = names;
        throw new Error("the workbook is busy");
      };
    });
    await put("Budget", "D6", 451);
    await page.getByText(/could not be read: the workbook is busy/).waitFor();
    await page.getByRole("button", { name: "Try again" }).click();
    await page.getByText("451 V").waitFor();
    assert.equal(await page.getByText(/could not be read/).count(), 0);
  });
});

describe("what its reader has folded", () => {
  it("stays folded in a working that is calculated again, and not in another cell's", async () => {
    await open();
    await insertBudget(0);
    await goTo("Budget", "B1");
    await tab(/Working/).click();
    const panel = page.getByRole("tabpanel", { name: /Working/ });
    await panel.getByText("43.51 V").first().waitFor();
    const block = panel.locator("details").first();
    assert.equal(await block.getAttribute("open"), "");
    await block.locator("summary").click();
    await put("Inputs", "B4", 13);
    // 3.4806 Ω times 13 A.
    await panel.getByText("45.25 V").first().waitFor();
    assert.equal(await block.getAttribute("open"), null);
    await put("Budget", "B9", '=FEED.CONDUCTOR_DROP(10,350,"4 mm²",40)');
    await goTo("Budget", "B9");
    await panel.getByText("34.81 V").first().waitFor();
    assert.equal(await block.getAttribute("open"), "");
  });

  it("stays open in a warning that finds something else", async () => {
    await open();
    await insertBudget(0);
    await tab(/Warnings 2/).click();
    const citation = page.locator(".feed-finding").first().locator("details");
    await citation.locator("summary").click();
    await put("Budget", "D6", 450);
    await page.getByText("450 V").waitFor();
    assert.equal(await citation.getAttribute("open"), "");
    await citation.getByText("IEC 62368-1").waitFor();
  });
});

describe("the pane as a whole", () => {
  const looks: readonly PaneLook[] = [
    { viewport: { width: 350, height: 620 }, colorScheme: "light" },
    { viewport: { width: 350, height: 620 }, colorScheme: "dark" },
    { viewport: { width: 320, height: 620 }, colorScheme: "light" },
    { viewport: { width: 320, height: 620 }, colorScheme: "dark" },
  ];
  for (const look of looks) {
    const name = `${look.viewport?.width} px, ${look.colorScheme}`;
    it(`has no fault that axe finds, and no sideways scroll, at ${name}`, async () => {
      await open(look);
      await requireSound();
      await page.getByRole("button", { name: "New feed" }).click();
      await requireSound();
      await page.keyboard.press("Escape");
      await tab(/Warnings/).click();
      await requireSound();
      await insertBudget(0);
      await tab(/Warnings 2/).waitFor();
      await goTo("Budget", "B1");
      await put("Inputs", "B4", -3);
      await answer()
        .getByText(/got -3/)
        .waitFor();
      await requireSound();
      await tab(/Insert/).click();
      await openFunction("CHAIN_SOLVE");
      await openFunction("CONDUCTOR_DROP");
      await page.getByText("4 optional arguments").click();
      await pressInsert();
      await fill({
        current: "=Inputs!B4",
        length: "350",
        size: "4 mm²",
        temperature: "40",
      });
      await put("Budget", "B1", 1);
      await pressInsert();
      await page.getByRole("alertdialog").waitFor();
      await page.getByRole("searchbox").fill("");
      await requireSound();
    });
  }

  async function requireSound(): Promise<void> {
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    assert.equal(widths[0], widths[1]);
    await page.evaluate(axe.source);
    const results = await page.evaluate(() =>
      (window as unknown as { axe: { run(options: object): Promise<AxeResults> } }).axe.run({
        resultTypes: ["violations"],
      }),
    );
    const faults = results.violations
      .filter(({ id }) => id !== "page-has-heading-one")
      .map(({ id, impact, nodes }) => [id, impact, nodes.map(({ html }) => html)]);
    assert.deepEqual(faults, []);
  }

  it("takes the host's theme over the system's", async () => {
    await open({ colorScheme: "light" });
    const ground = () =>
      page.evaluate(
        () => getComputedStyle(document.querySelector(".feed-pane") as Element).backgroundColor,
      );
    const light = await ground();
    await page.evaluate(() => {
      document.documentElement.dataset["theme"] = "dark";
    });
    assert.notEqual(await ground(), light);
    await page.evaluate(() => {
      document.documentElement.dataset["theme"] = "light";
    });
    await page.emulateMedia({ colorScheme: "dark" });
    assert.equal(await ground(), light);
  });

  it("leaves 34 by 32 px free at the top right for the host's own menu", async () => {
    await open({ viewport: { width: 320, height: 620 } });
    const covered = await page.evaluate(() => {
      const texts = document.createTreeWalker(
        document.querySelector("#pane") as Node,
        NodeFilter.SHOW_TEXT,
      );
      const found: string[] = [];
      while (texts.nextNode()) {
        const range = document.createRange();
        range.selectNodeContents(texts.currentNode);
        for (const { right, top, width } of range.getClientRects())
          if (width > 1 && right > innerWidth - 34 && top < 32)
            found.push(texts.currentNode.textContent ?? "");
      }
      return found;
    });
    assert.deepEqual(covered, []);
  });

  it("stays readable in forced colours and still without motion", async () => {
    await open({ forcedColors: "active", reducedMotion: "reduce" });
    const styles = await page.evaluate(() => {
      const chosen = document.querySelector('[role="tab"][aria-selected="true"]');
      const other = document.querySelector('[role="tab"][aria-selected="false"]');
      const of = (tab: Element | null) => getComputedStyle(tab as Element);
      return {
        chosen: of(chosen).borderBottomColor,
        other: of(other).borderBottomColor,
        motion: of(chosen).transitionDuration,
      };
    });
    assert.notEqual(styles.chosen, styles.other);
    assert.equal(styles.motion, "0s");
  });

  it("puts the keyboard on its tabs when asked, and goes away without a trace", async () => {
    await open();
    await page.evaluate(() => window.paneTest.pane.focus());
    assert.equal(await focusedName(), "Feed");
    await page.evaluate(() => window.paneTest.pane.dispose());
    assert.equal(await page.locator("#pane").innerHTML(), "");
    await insertBudget(0);
    await goTo("Budget", "B1");
    await page.waitForTimeout(400);
    assert.equal(await page.locator("#pane").innerHTML(), "");
  });
});
