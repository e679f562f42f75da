/** The two ways in which a user works a page: keys alone, or a mouse that the keyboard only lends its letters. */
import assert from "node:assert/strict";
import type { Locator, Page } from "playwright-core";

export interface Hands {
  /** Keys pressed, clicks, and fields filled or chosen from. */
  readonly count: { keys: number; clicks: number; entries: number };
  /** @param key What stands for the button where the keyboard is already. */
  press(button: Locator, key?: string): Promise<void>;
  /** In the place of what the field holds. */
  enter(field: Locator, text: string): Promise<void>;
  choose(list: Locator, option: string): Promise<void>;
  chooseItem(tree: Locator, name: string): Promise<void>;
  /** The last step of the workbook. */
  undo(): Promise<void>;
}

const nothingYet = () => ({ keys: 0, clicks: 0, entries: 0 });

/** More than all that can have the keyboard in the pane. */
const MOST_TABS = 200;

export function byKeys(page: Page): Hands {
  const count = nothingYet();

  async function key(name: string): Promise<void> {
    count.keys += 1;
    await page.keyboard.press(name);
  }

  /** By Tab or Shift+Tab, whichever leads there; by F6 from outside the pane. */
  async function reach(target: Locator): Promise<void> {
    for (let presses = 0; ; presses += 1) {
      const way = await target.evaluate((wanted) => {
        const now = document.activeElement;
        if (now === wanted) return undefined;
        if (!now?.closest("#pane")) return "F6";
        const isBehind = wanted.compareDocumentPosition(now) & Node.DOCUMENT_POSITION_FOLLOWING;
        return isBehind ? "Shift+Tab" : "Tab";
      });
      if (way === undefined) return;
      assert.ok(presses < MOST_TABS, `${String(target)} cannot be reached by keys`);
      await key(way);
    }
  }

  return {
    count,
    async press(button, shortcut) {
      if (shortcut === undefined) await reach(button);
      await key(shortcut ?? "Enter");
    },
    async enter(field, text) {
      await reach(field);
      if ((await field.inputValue()) !== "") await key("Control+a");
      count.entries += 1;
      await page.keyboard.insertText(text);
    },
    async choose(list, option) {
      await reach(list);
      count.entries += 1;
      await page.keyboard.type(option);
      assert.equal(await list.locator("option:checked").innerText(), option);
    },
    async chooseItem(tree, name) {
      await reach(tree.locator('[tabindex="0"]'));
      const names = await tree.locator(".feed-outline-name").allInnerTexts();
      const chosen = tree.locator('[aria-selected="true"] .feed-outline-name');
      const from = names.indexOf(await chosen.innerText());
      const steps = names.indexOf(name) - from;
      for (let step = 0; step < Math.abs(steps); step += 1)
        await key(steps > 0 ? "ArrowDown" : "ArrowUp");
      await chosen.getByText(name, { exact: true }).waitFor();
    },
    async undo() {
      await key("Shift+F6");
      await key("Control+z");
      await key("F6");
    },
  };
}

export function byMouse(page: Page): Hands {
  const count = nothingYet();

  async function click(target: Locator, times = 1): Promise<void> {
    count.clicks += times;
    await target.click({ clickCount: times });
  }

  return {
    count,
    press: (button) => click(button),
    async enter(field, text) {
      // Three clicks choose what stands there.
      await click(field, (await field.inputValue()) === "" ? 1 : 3);
      count.entries += 1;
      await page.keyboard.insertText(text);
    },
    async choose(list, option) {
      // The list that a browser opens is no part of its page: one click opens it, another chooses.
      count.clicks += 2;
      count.entries += 1;
      await list.selectOption(option);
    },
    chooseItem: (tree, name) =>
      click(
        tree
          .getByRole("treeitem")
          .filter({ has: page.getByText(name, { exact: true }) })
          .locator(".feed-outline-name"),
      ),
    undo: () => click(page.getByRole("button", { name: "Undo", exact: true })),
  };
}
