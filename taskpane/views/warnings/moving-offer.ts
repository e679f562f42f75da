/** The offer to move budgets that 0.2 made into schedules, and what came of it. */
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import type { Host } from "../../hosts/host.js";
import { moveBudget, type Moved } from "../../workbook/moving.js";
import { button, element } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.moving;

export interface MovingOffer {
  readonly element: HTMLElement;
  /** The offers are made anew only where the budgets are others. */
  show(old: readonly FoundBudget[]): void;
}

export function movingOffer(host: Host, failed: (error: unknown) => void): MovingOffer {
  const what = element("p", { class: "feed-quiet" });
  const offers = element("div", { class: "feed-actions" });
  const outcome = element("div", { class: "feed-outcome", role: "status" });
  const section = element("section", { class: "feed-moving", hidden: true }, what, offers, outcome);
  let shown = "";

  async function move(budget: FoundBudget): Promise<void> {
    outcome.replaceChildren(said.moving(budget.stem));
    const moved = await moveBudget(host, budget);
    outcome.replaceChildren(...outcomeOf(moved));
  }

  function outcomeOf({ title, sheet, lost }: Moved): HTMLElement[] {
    return [
      element("p", {}, said.moved(title, sheet)),
      button(said.goTo(sheet), () => {
        host.goTo({ sheet, address: "A1" }).catch(failed);
      }),
      ...(lost.length === 0
        ? []
        : [
            element("p", {}, said.lost(lost.length)),
            element("ul", {}, ...lost.map((line) => element("li", {}, line))),
          ]),
    ];
  }

  return {
    element: section,
    show(old) {
      const stems = old.map(({ stem }) => stem);
      section.hidden = old.length === 0;
      if (stems.join(" ") === shown) return;
      shown = stems.join(" ");
      what.textContent = said.old(stems);
      offers.replaceChildren(
        ...old.map((budget) =>
          button(said.move(budget.stem), () => {
            move(budget).catch((error: unknown) => {
              outcome.replaceChildren();
              failed(error);
            });
          }),
        ),
      );
    },
  };
}
