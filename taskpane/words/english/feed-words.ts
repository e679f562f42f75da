/** What the view of a feed says. */
import type { ItemVerdict } from "../../budgets/reading/feed-figures.js";

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

export const feedWords = {
  tab: "Feed",
  title: "Feed",
  noBudget: "There is no feed in this workbook yet.",
  symbol: { fails: "✖", "not determined": "?", holds: "✔", "not judged": "–" } satisfies Record<
    ItemVerdict,
    string
  >,
  budget: "Budget",
  outline: (title: string) => `Items of ${title}, in feeding order`,
  keys: "Arrow keys move, Enter goes to the row on the sheet, F2 renames, Delete removes.",
  notFed: "not fed yet",
  notFedCount: (number: number) => `${count(number, "item")} not fed yet; the rest is solved.`,
  unsolved: "not solved",
  /** Of an item that several feed. */
  fromAll: (names: readonly string[]) => `from ${names.join(" and ")}`,
  sums: (supply: string, loads: string, losses: string) =>
    `Supply ${supply}, loads ${loads}, lost ${losses}`,
  add: (name: string) => `Add below ${name}`,
  added: (block: string, name: string) => `${block} below ${name}`,
  editing: (name: string) => `Figures of ${name}`,
  addSupply: "Add a supply",
  addAny: "Add an item",
  edit: "Change its figures",
  rename: "Rename",
  move: "Feed from elsewhere",
  duplicate: "Duplicate with what it feeds",
  remove: "Remove",
  goTo: "Go to its row",
  commands: (name: string) => `Commands for ${name}`,
  kind: "Kind of item",
  newName: (name: string) => `New name of ${name}`,
  nameNeeded: "Enter a name.",
  nameTaken: (name: string) => `Another item is called ${name}.`,
  feeder: (name: string) => `${name} is fed from`,
  nothing: "nothing yet",
  noFeeders: "There is no other item that could feed it.",
  removeAsk: (name: string, number: number) =>
    number === 0
      ? `Remove ${name} from the feed?`
      : `${name} feeds ${count(number, "other item")}. What is done with ${number === 1 ? "it" : "them"}?`,
  removeAll: (number: number) => (number === 0 ? "Remove it" : `Remove all ${number + 1}`),
  removeAlone: (feeder: string) =>
    feeder === "" ? "Keep them, not fed" : `Feed them from ${feeder}`,
  gone: (stem: string) => `the budget ${stem} is not in this workbook any more`,
  itemGone: (name: string) => `there is no item called ${name} any more`,
  cancel: "Cancel",
  save: "Write to the sheet",
  saving: "Writing …",
  written: (name: string, block: string, sheet: string) => `${name} is in ${block} on ${sheet}.`,
  renamed: (old: string, name: string) => `${old} is called ${name} now, wherever it was named.`,
  moved: (name: string, feeder: string) => `${name} is fed from ${feeder} now.`,
  duplicated: (name: string, copy: string) => `${name} and what it feeds are copied, as ${copy}.`,
  removed: (names: readonly string[]) => `Removed: ${names.join(", ")}.`,
  undo: "Undo in the spreadsheet brings it back.",
  more: (number: number) => `${count(number, "more column")}`,
  empty: "leave empty",
  rowSays: "The feed table says",
  shared: "Places and stage types",
  addShared: (block: string) => `Add a ${block.toLowerCase()}`,
  noShared: (block: string) => `There is no ${block.toLowerCase()} yet.`,
  changeShared: (name: string) => `Change ${name}`,
  typeMissing: (name: string) => `There is no stage type called ${name} yet: add it below.`,

  asked: {
    title: (open: number) =>
      open === 0 ? "What is asked for" : `What is asked for (${open} still open)`,
    form: "What is asked for",
    about: "Enter a value, or “not asked”. A check whose value is empty is not determined.",
    usual: (text: string) => `usual, not a requirement: ${text}`,
    written: (sheet: string) => `What is asked for is written on ${sheet}.`,
  },

  newFeed: {
    open: "New feed",
    title: "New feed",
    about:
      "Adds sheets with empty schedules, a first supply and what is asked for. Sheets that exist are not changed.",
    name: "Name of the feed",
    nominal: "Supply voltage, nominal (V)",
    lowest: "Lowest (V)",
    highest: "Highest (V)",
    framework: "Voltage bands of",
    place: "Where people can touch it",
    coldest: "Coldest air (°C)",
    hottest: "Hottest air (°C)",
    altitude: "Altitude (m)",
    create: "Create its sheets",
    creating: "Creating the sheets …",
    created: (sheets: readonly string[]) => `The feed is on the sheets ${sheets.join(", ")}.`,
    order: "The nominal voltage must not be below the lowest or above the highest.",
    numberNeeded: (label: string) => `${label}: enter a number.`,
    temperatures: "The coldest air must not be warmer than the hottest.",
    basis: "entered with New feed",
    choose: "choose …",
  },

  diagram: {
    title: "Single-line diagram",
    alternative: (items: readonly string[]) => `Single-line diagram: ${items.join("; ")}.`,
    told: (name: string, fedFrom: string, verdict: ItemVerdict) =>
      `${fedFrom === "" ? name : `${name} from ${fedFrom}`}${verdict === "fails" ? ", fails" : ""}`,
    columns: {
      item: "Item",
      fedFrom: "Fed from",
      volts: "V",
      amperes: "A",
      watts: "W",
      checks: "Checks",
    },
    verdict: (verdict: ItemVerdict, number: number): string => {
      if (verdict === "fails") return `${number} ${number === 1 ? "fails" : "fail"}`;
      return verdict === "not determined" ? `${number} not determined` : verdict;
    },
    notFed: "not fed yet",
    unsolved: "not solved",
  },
} as const;
