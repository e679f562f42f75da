/** The same sheets without a figure in them: what is asked for is typed on Inputs, the feed on Feed, Loads and Types. */
import type { BudgetSample } from "../sample.js";
import { textTable } from "./text-table.js";

export const blank: BudgetSample = {
  id: "blank-budget",
  version: "2.0.0",
  stem: "Blank",
  document: { title: "New feed" },
  story: "An empty budget: type what is asked for here, then the schedules.",
  origin: "",
  emptyRows: 8,
  asked: {},
  schedules: {
    Supply: textTable(`
Supply
Supply
`),
  },
  remarks: [
    "Rows that stand empty are passed over. What a row lacks is said in the Note of Table and, grouped, on Checks.",
    "An item that is not fed yet is a state, not an error: the rest is solved.",
  ],
};
