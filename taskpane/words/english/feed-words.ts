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
  keys: "Arrow keys move, Enter goes to the row on the sheet, F2 renames, Delete takes out.",
  notFed: "not fed yet",
  notFedCount: (number: number) => `${count(number, "item")} not fed yet; the rest is solved.`,
  unsolved: "not solved",
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
  remove: "Take out",
  goTo: "Go to its row",
  commands: (name: string) => `Commands for ${name}`,
  kind: "What it is",
  newName: (name: string) => `New name of ${name}`,
  nameNeeded: "It needs a name.",
  nameTaken: (name: string) => `There is another item called ${name}.`,
  feeder: (name: string) => `${name} is fed from`,
  nothing: "nothing yet",
  noFeeders: "There is no other item that could feed it.",
  removeAsk: (name: string, number: number) =>
    number === 0
      ? `Take ${name} out of the feed?`
      : `${name} feeds ${count(number, "other item")}. What becomes of them?`,
  removeAll: (number: number) => (number === 0 ? "Take it out" : `Take all ${number + 1} out`),
  removeAlone: (feeder: string) =>
    feeder === "" ? "Keep them, not fed" : `Feed them from ${feeder}`,
  gone: (stem: string) => `the budget ${stem} is not in this workbook any more`,
  itemGone: (name: string) => `there is no item called ${name} any more`,
  cancel: "Cancel",
  save: "Write it to the sheet",
  saving: "Writing …",
  written: (name: string, block: string, sheet: string) => `${name} is in ${block} on ${sheet}.`,
  renamed: (old: string, name: string) => `${old} is called ${name} now, wherever it was named.`,
  moved: (name: string, feeder: string) => `${name} is fed from ${feeder} now.`,
  duplicated: (name: string, copy: string) =>
    `${name} and what it feeds stand there once more, as ${copy}.`,
  removed: (names: readonly string[]) => `Taken out: ${names.join(", ")}.`,
  undo: "Undo in the spreadsheet brings it back.",
  more: (number: number) => `${count(number, "more column")}`,
  empty: "leave empty",
  rowSays: "The feed table says",
  shared: "Places and stage types",
  addShared: (block: string) => `Add a ${block.toLowerCase()}`,
  noShared: (block: string) => `No ${block.toLowerCase()} is typed yet.`,
  changeShared: (name: string) => `Change ${name}`,
  typeMissing: (name: string) => `There is no stage type called ${name} yet: add it below.`,

  asked: {
    title: (open: number) =>
      open === 0 ? "What is asked for" : `What is asked for (${open} still open)`,
    form: "What is asked for",
    about: "A value, or “not asked”. What stands empty leaves its checks not determined.",
    usual: (text: string) => `usual, not a requirement: ${text}`,
    written: (sheet: string) => `What is asked for is written on ${sheet}.`,
  },

  newFeed: {
    open: "New feed",
    title: "New feed",
    about:
      "Sheets with empty schedules, a first supply and what is asked for. Nothing that exists is changed.",
    name: "Name of the feed",
    nominal: "Supply voltage, nominal (V)",
    lowest: "Lowest (V)",
    highest: "Highest (V)",
    framework: "Voltage bands after",
    place: "Where people can touch it",
    coldest: "Coldest air (°C)",
    hottest: "Hottest air (°C)",
    altitude: "Altitude (m)",
    create: "Create its sheets",
    creating: "Creating the sheets …",
    created: (sheets: readonly string[]) => `The feed stands on the sheets ${sheets.join(", ")}.`,
    order: "The lowest voltage must not be above the nominal one, nor that above the highest.",
    numberNeeded: (label: string) => `${label}: a number is wanted.`,
    temperatures: "The coldest air must not be warmer than the hottest.",
    basis: "typed when the feed was begun",
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
