/** Pictures of a budget: each with its words and its numbers, drawn for the width there is, and to be put on a sheet. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { type BudgetSearch, titleOf } from "../../workbook/found-budgets.js";
import type { Host } from "../../hosts/host.js";
import type { OfferedPictures, Picture, PictureOffer } from "../../pictures/parts/picture.js";
import { readPictures } from "../../pictures/picture-offers.js";
import { picturePlan } from "../../pictures/picture-plan.js";
import { button, element, freshId } from "../parts/element.js";
import { latestOnly } from "../parts/latest.js";
import { pictureFigure } from "./picture-figure.js";
import { words } from "../../words/words.js";

const said = words.pictures;

export interface PicturesOptions {
  readonly host: Host;
  readonly search: () => Promise<BudgetSearch>;
  readonly failed: (error: unknown) => void;
}

export interface PicturesView {
  readonly element: HTMLElement;
  /** Reads and draws anew; nothing is read while the view is not shown. */
  refresh(): Promise<void>;
  dispose(): void;
}

export function picturesView(options: PicturesOptions): PicturesView {
  const { host, search, failed } = options;
  const chooser = element("div", {});
  const solvedFor = element("p", { class: "feed-status" });
  const figures = element("div", { class: "feed-pictures" });
  const view = element(
    "div",
    {},
    element("h2", { class: "feed-heading" }, said.title),
    element("p", { class: "feed-quiet" }, said.about),
    chooser,
    solvedFor,
    figures,
  );
  const newest = latestOnly();
  /** What is chosen, by the budget's stem and by each picture's id. */
  let chosenStem: string | undefined;
  const chosen = new Map<string, string>();
  let shown = "";
  let width = 0;
  let draw: () => void = () => undefined;

  async function refresh(): Promise<void> {
    if (width === 0) return;
    const isNewest = newest();
    const found = (await search()).budgets;
    const budget = found.find(({ stem }) => stem === chosenStem) ?? found.at(0);
    const read = budget ? await readPictures(host, budget) : undefined;
    if (!isNewest()) return;
    const now = JSON.stringify([
      found.map(({ stem }) => stem),
      budget?.stem,
      read?.solvedFor,
      read?.offers.map(({ variants }) =>
        variants.map(({ name, picture }) => [name, picture.table]),
      ),
    ]);
    // Nothing that is drawn has changed: the reader keeps the place.
    if (now === shown) return;
    shown = now;
    showChooser(found, budget);
    show(budget, read);
  }

  function showChooser(found: readonly FoundBudget[], budget: FoundBudget | undefined): void {
    if (found.length < 2) return chooser.replaceChildren();
    const options = found.map((one) => ({
      value: one.stem,
      label: `${titleOf(one)} · ${one.stem}`,
    }));
    chooser.replaceChildren(
      choice(said.budget, options, budget?.stem ?? "", (stem) => {
        chosenStem = stem;
        refresh().catch(failed);
      }),
    );
  }

  function show(budget: FoundBudget | undefined, read: OfferedPictures | undefined): void {
    solvedFor.textContent = read?.solvedFor ?? "";
    if (!budget || !read || read.offers.length === 0) {
      draw = () => undefined;
      const why = budget ? said.unsolved : said.noBudget;
      figures.replaceChildren(element("p", {}, why));
      return;
    }
    const source = { title: titleOf(budget), solvedFor: read.solvedFor };
    const shownOffers = read.offers.map((offer) =>
      offered(offer, (picture) => picturePlan(picture, budget, source)),
    );
    figures.replaceChildren(...shownOffers.map((one) => one.element));
    draw = () => {
      for (const one of shownOffers) one.draw(width);
    };
    draw();
  }

  function offered({ id, variants }: PictureOffer, planOf: (picture: Picture) => WorkbookPlan) {
    const outcome = element("div", { class: "feed-outcome", role: "status" });
    const named = (name: string | undefined) =>
      variants.find((one) => one.name === name) ?? variants[0];
    let picture = named(chosen.get(id))?.picture;
    const figure = pictureFigure(id);
    const redraw = (at: number) => {
      if (picture && at > 0) figure.show(picture, at);
    };
    const select =
      variants.length < 2
        ? []
        : [
            choice(
              said.choose[id],
              variants.map(({ name }) => ({ value: name, label: name })),
              chosen.get(id) ?? variants[0]?.name ?? "",
              (name) => {
                chosen.set(id, name);
                picture = named(name)?.picture;
                outcome.replaceChildren();
                redraw(width);
              },
            ),
          ];
    const place = button(said.place, () => {
      if (picture) put(planOf(picture), outcome).catch(failed);
    });
    return {
      draw: redraw,
      element: element(
        "section",
        { class: "feed-section", "aria-labelledby": figure.titleId },
        figure.heading,
        ...select,
        figure.element,
        element("div", { class: "feed-actions" }, place),
        outcome,
      ),
    };
  }

  async function put(plan: WorkbookPlan, outcome: HTMLElement): Promise<void> {
    outcome.textContent = said.placing(plan.title);
    try {
      const { sheets } = await host.insert(plan);
      const [sheet = ""] = Object.values(sheets);
      outcome.replaceChildren(
        `${said.placed(sheet)} `,
        button(said.goTo(sheet), () => {
          host.goTo({ sheet, address: "A1" }).catch(failed);
        }),
      );
    } catch (error) {
      outcome.textContent = "";
      throw error;
    }
  }

  // It has no width while its tab is not the chosen one, so this also tells when it comes to be shown.
  const sizes = new ResizeObserver(() => {
    const now = Math.floor(figures.clientWidth);
    if (now === width) return;
    const wasShown = width > 0;
    width = now;
    if (now === 0) return;
    if (wasShown) draw();
    else refresh().then(draw, failed);
  });
  sizes.observe(figures);

  return { element: view, refresh, dispose: () => sizes.disconnect() };
}

function choice(
  label: string,
  options: readonly { readonly value: string; readonly label: string }[],
  selected: string,
  choose: (value: string) => void,
): HTMLElement {
  const id = freshId("choice");
  const select = element(
    "select",
    { class: "feed-input", id },
    ...options.map((option) =>
      element("option", { value: option.value, selected: option.value === selected }, option.label),
    ),
  );
  select.addEventListener("change", () => choose(select.value));
  return element(
    "div",
    { class: "feed-picture-choice" },
    element("label", { class: "feed-label", for: id }, label),
    select,
  );
}
