/** A small feed typed into the blank budget's sheets, with rows left empty between its items; figures invented. */
import type { BudgetSample } from "../../taskpane/budgets/sample.js";
import { blank } from "../../taskpane/budgets/samples/blank.js";

export const smallFeed: BudgetSample = {
  ...blank,
  asked: {
    Framework: "IEC 62368-1",
    Place: "dry",
    "Load margin": 0.1,
    "Largest drop of a cable": 0.2,
    "Largest loading of a cable": 1,
  },
  schedules: {
    Supply: [
      {
        Supply: "Bus",
        Voltage: 100,
        Resistance: 1,
        "Lowest V": 90,
        "Highest V": 110,
      },
    ],
    Cable: [
      {},
      {
        Cable: "Tail",
        "Fed from": "Bus",
        Length: 40,
        Size: "2.5 mm²",
        Build: "class 2",
        "Conductor at most": 60,
        "Rated A": 25,
      },
    ],
    Load: [
      {
        Load: "Lamp",
        "Fed from": "Tail",
        Kind: "power",
        Nominal: 50,
        "Lowest V": 40,
        "Highest V": 120,
      },
      {},
      {
        Load: "Winch",
        "Fed from": "Tail",
        Kind: "power",
        Light: 50,
        Nominal: 500,
        Peak: 900,
        "Lowest V": 40,
        "Highest V": 120,
      },
    ],
  },
};
