/** A feed of the user's own as it begins: the blank budget with what is known of it already. */
import { EVERYWHERE } from "../../src/schedules/columns.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { budgetPlan } from "../budgets/budget-plan.js";
import { blank } from "../budgets/samples/blank.js";
import { feedWords } from "../words/feed-words.js";

/** Undefined and "" where it is not known yet. */
export interface NewFeed {
  readonly title: string;
  readonly nominal?: number;
  readonly lowest?: number;
  readonly highest?: number;
  readonly framework: string;
  readonly place: string;
  readonly coldest?: number;
  readonly hottest?: number;
  readonly altitude?: number;
}

export function newFeedPlan(feed: NewFeed): WorkbookPlan {
  const { title, framework, place } = feed;
  const basis = feedWords.newFeed.basis;
  return budgetPlan({
    ...blank,
    stem: stemOf(title),
    document: { title },
    asked: {
      ...blank.asked,
      ...(framework !== "" && { Framework: framework }),
      ...(place !== "" && { Place: place }),
    },
    schedules: {
      Supply: [
        {
          Supply: "Supply",
          ...given("Lowest V", feed.lowest),
          ...given("Voltage", feed.nominal),
          ...given("Highest V", feed.highest),
          Basis: basis,
        },
      ],
      Location: [
        {
          Location: EVERYWHERE,
          ...given("Coldest", feed.coldest),
          ...given("Hottest", feed.hottest),
          ...given("Altitude", feed.altitude),
          ...(place !== "" && { Place: place }),
          Basis: basis,
        },
      ],
    },
  });
}

function given(header: string, value: number | undefined) {
  return value === undefined ? {} : { [header]: value };
}

/** The first word of the title that a name may begin with. */
function stemOf(title: string): string {
  const word = /[A-Za-z][A-Za-z0-9]*/.exec(title.normalize("NFKD"))?.[0];
  return word === undefined || word.length < 3
    ? "Feed"
    : word.charAt(0).toUpperCase() + word.slice(1);
}
