/** Pictures of a budget: each with its words and its numbers, drawn for the width there is, and to be taken away. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import type { OfferedPictures } from "../../pictures/parts/picture.js";
import type { CellRange } from "../../hosts/host.js";
import { readPictures } from "../../pictures/picture-offers.js";
import { picturePlan } from "../../pictures/picture-plan.js";
import { mattersPlan } from "../../pictures/spread/matters-plan.js";
import { titleOf } from "../../workbook/found-budgets.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { words } from "../../words/words.js";
import { BudgetChoice } from "../parts/budget-choice.js";
import { useWidth } from "../parts/drawing-view.js";
import { drawInto, type Tools, useTools } from "../parts/tools.js";
import { useSearch } from "../parts/use-store.js";
import { PictureFigure } from "./picture-figure.js";

const said = words.pictures;

export interface PicturesOptions extends Tools {
  readonly store: WorkbookStore;
}

export function picturesView(options: PicturesOptions): HTMLElement {
  const place = document.createElement("div");
  drawInto(place, options, <Pictures store={options.store} />);
  return place;
}

interface Read extends OfferedPictures {
  readonly budget: FoundBudget;
}

function Pictures({ store }: Pick<PicturesOptions, "store">) {
  const search = useSearch(store);
  const budgets = search?.budgets ?? [];
  const [stem, choose] = useState("");
  const budget = budgets.find((one) => one.stem === stem) ?? budgets.at(0);
  const place = useRef<HTMLDivElement>(null);
  // Nothing is read while the view is not shown: it has no width then.
  const offers = useOffers(store, useWidth(place) > 0 ? budget : undefined, budgets);
  const read = budget && offers;
  return (
    <>
      <h2 class="feed-heading">{said.title}</h2>
      <p class="feed-quiet">{said.about}</p>
      <BudgetChoice label={said.budget} budgets={budgets} chosen={budget} choose={choose} />
      <p class="feed-status">{read && `${titleOf(read.budget)}. ${read.solvedFor}`.trim()}</p>
      <div class="feed-pictures" ref={place}>
        {search && !budget && <p>{said.noBudget}</p>}
        {read?.offers.length === 0 && <p>{said.unsolved}</p>}
        {read?.offers.map((offer) => (
          <PictureFigure
            key={offer.id}
            offer={offer}
            budget={titleOf(read.budget)}
            more={offer.id === "tornado" ? mattersSheet(read.budget) : undefined}
            planOf={(picture) =>
              picturePlan(picture, read.budget, {
                title: titleOf(read.budget),
                solvedFor: read.solvedFor,
              })
            }
          />
        ))}
        {read?.missing.map((text) => (
          <p key={text} class="feed-quiet">
            {text}
          </p>
        ))}
      </div>
    </>
  );
}

function mattersSheet(budget: FoundBudget) {
  const plan = mattersPlan(budget, titleOf(budget));
  return plan && { label: said.matters.insert, plan };
}

/** The last that were read stand until the next are there. */
function useOffers(
  store: WorkbookStore,
  budget: FoundBudget | undefined,
  budgets: readonly FoundBudget[],
): Read | undefined {
  const { host, failed } = useTools();
  const [read, show] = useState<Read>();
  useEffect(() => {
    if (!budget) return;
    let isNewest = true;
    const others = budgets.filter((one) => one !== budget);
    const reading = {
      namespace: host.namespace,
      names: store.names,
      read: (ranges: readonly CellRange[]) => host.read(ranges),
      used: (sheet: string) => host.used(sheet),
    };
    readPictures(reading, budget, others).then(
      (offered) => isNewest && show({ budget, ...offered }),
      failed,
    );
    return () => {
      isNewest = false;
    };
  }, [budget]);
  return read;
}
