/** A feed of any size for the measurements: halls of eight items along a trunk, all figures invented. */
import type { BudgetSample, Entered, ScheduleRow } from "../../taskpane/budgets/sample.js";

/** A cable, its fuse, two stages, a cable behind one of them, and three loads. */
const ITEMS_OF_A_HALL = 8;

/** @param items At least 9; the supply, and whole halls. */
export function manyItems(items: number): BudgetSample {
  const halls = Array.from(
    { length: Math.floor((items - 1) / ITEMS_OF_A_HALL) },
    (_, index) => `hall ${index + 1}`,
  );
  const rows = (row: (hall: string, index: number) => Readonly<Record<string, Entered>>) =>
    halls.map((hall, index) => row(hall, index)) as readonly ScheduleRow[];
  return {
    id: `feed-of-${items}`,
    version: "2.0.0",
    stem: "Halls",
    document: { title: `Feed of ${items} items` },
    story: "A 750 V supply feeds halls along a gallery.",
    origin: "Invented for measuring.",
    emptyRows: 0,
    asked: {
      Framework: "IEC 60364-4-41",
      Place: "dry",
      "Load margin": 0.1,
      "Largest drop of a cable": 0.05,
      "Largest loading of a stage": 0.8,
      "Largest loading of a cable": 1,
      "Units lost": 1,
      "Stability margin": 0.5,
    },
    schedules: {
      Supply: [
        {
          Supply: "Bus",
          Location: "Gallery",
          "Lowest V": 700,
          Voltage: 750,
          "Highest V": 800,
          Resistance: 0.002,
          "Rated A": 400,
        },
      ],
      "In line": rows((hall) => ({
        "In line": `Fuse of ${hall}`,
        "Fed from": "Bus",
        Location: "Gallery",
        Kind: "fuse",
        Resistance: 20,
        "Rated A": 6,
        "Rated V": 1000,
        "Clears at A": 30,
        "Within s": 5,
        "Clears near end s": 0.01,
        "Breaks A": 10000,
      })),
      Cable: rows((hall, index) => ({
        Cable: `Cable to ${hall}`,
        "Fed from": `Fuse of ${hall}`,
        Location: "Gallery",
        Length: 40 + 5 * index,
        Size: "6 mm²",
        "Conductor at most": 60,
        "Outer diameter": 14,
        Insulation: "PVC",
        "Rated A": 30,
        "Rated V": 1000,
        "Core spacing": 5,
      })).concat(
        rows((hall) => ({
          Cable: `24 V cable of ${hall}`,
          "Fed from": `24 V of ${hall}`,
          Location: "Gallery",
          Length: 6,
          Size: "10 mm²",
          "Conductor at most": 60,
          "Outer diameter": 16,
          Insulation: "PVC",
          "Rated A": 40,
          "Rated V": 450,
        })),
      ),
      Stage: rows((hall, index) => ({
        Stage: `48 V of ${hall}`,
        "Fed from": `Cable to ${hall}`,
        Location: "Gallery",
        Type: "one to sixteen",
        "In parallel": 2,
        // Some of them in every feed: their worst cases are searched.
        ...(index < 3 && { Tolerance: 0.02 }),
      })).concat(
        rows((hall) => ({
          Stage: `24 V of ${hall}`,
          "Fed from": `48 V of ${hall}`,
          Location: "Gallery",
          Type: "24 V",
          "Overvoltage trip": 28,
        })),
      ),
      Load: ["Lamps", "Cameras", "Heater"].flatMap((load, at) =>
        rows((hall, index) => ({
          Load: `${load} of ${hall}`,
          "Fed from": at === 0 ? `48 V of ${hall}` : `24 V cable of ${hall}`,
          Location: "Gallery",
          Kind: at === 2 ? "heater" : "power",
          ...(at === 2 && { "Rated V": 24 }),
          Light: 5,
          Nominal: 40 + (index % 5),
          Peak: 60,
          "Lowest V": at === 0 ? 36 : 21.6,
          "Highest V": at === 0 ? 60 : 26.4,
        })),
      ),
      Location: [
        {
          Location: "Gallery",
          Coldest: -5,
          Hottest: 35,
          Altitude: 400,
          Place: "dry",
          Access: "enclosed",
        },
      ],
      "Stage type": [
        {
          "Stage type": "one to sixteen",
          Kind: "ratio",
          "Steps down by": 16,
          "Lowest V": 600,
          "Highest V": 900,
          "Rated A": 12,
          Resistance: 12,
          "Fixed loss": 4,
          Lowest: -40,
          "Full up to": 50,
          Derating: 0.02,
          Highest: 70,
          "Input capacitance": 10,
          "Input series resistance": 300,
          Isolation: "reinforced",
        },
        {
          "Stage type": "24 V",
          Kind: "regulated",
          Voltage: 24,
          "Lowest V": 36,
          "Highest V": 60,
          "Rated A": 15,
          "Limit A": 20,
          "Fixed loss": 1.5,
          "Linear loss": 0.2,
          "Quadratic loss": 0.05,
          Lowest: -40,
          "Full up to": 50,
          Derating: 0.02,
          Highest: 70,
          "Input capacitance": 100,
          "Input series resistance": 50,
          Isolation: "none",
        },
      ],
    },
    remarks: [],
  };
}
