/** Looks for Downfeed formulas that do not calculate, says why, and writes them anew when asked to. */
import type { Host } from "../../hosts/host.js";
import { type BrokenCell, brokenCells, repairCells } from "../../workbook/repair.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { button, code, element } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.repair;

export function repairSection(host: Host, failed: (error: unknown) => void): HTMLElement {
  const outcome = element("p", { class: "feed-outcome", role: "status" });
  const found = element("ul", { class: "feed-findings" });
  const actions = element("div", { class: "feed-actions" });
  const lookButton = button(said.look, () => {
    look().catch(failed);
  });
  actions.append(lookButton);

  async function look(): Promise<void> {
    outcome.textContent = said.looking;
    show(await brokenCells(host));
  }

  function show(cells: readonly BrokenCell[]): void {
    const mendable = cells.filter(({ repaired }) => repaired !== undefined);
    outcome.textContent =
      cells.length === 0 ? said.none : said.found(cells.length, mendable.length);
    found.replaceChildren(...cells.map((cell) => item(cell)));
    actions.replaceChildren(
      lookButton,
      ...(mendable.length > 0
        ? [
            button(said.repair, () => {
              repair(cells).catch(failed);
            }),
          ]
        : []),
    );
  }

  async function repair(cells: readonly BrokenCell[]): Promise<void> {
    const count = await repairCells(host, cells);
    show(await brokenCells(host));
    outcome.textContent = `${said.repaired(count)} ${outcome.textContent}`;
    lookButton.focus();
  }

  function item({ at, formula, why }: BrokenCell): HTMLElement {
    return element(
      "li",
      {},
      button(
        rangeText(at),
        () => {
          host.goTo(at).catch(failed);
        },
        { class: "feed-link" },
      ),
      element("p", {}, code(formula)),
      element("p", { class: "feed-quiet" }, why),
    );
  }

  return element(
    "section",
    { class: "feed-group" },
    element("h3", { class: "feed-group-heading" }, said.title),
    element("p", { class: "feed-quiet" }, said.about),
    actions,
    outcome,
    found,
  );
}
