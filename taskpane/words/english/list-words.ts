/** What pasting a list says. */

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

function amount(number: number, unit: string): string {
  return unit === "" ? "" : `${shown(number)} ${unit}`;
}

function shown(number: number): string {
  return new Intl.NumberFormat(undefined, { maximumSignificantDigits: 12 }).format(number);
}

export const listWords = {
  open: "Paste a list",
  title: "Paste a list",
  about:
    "A load list or cable schedule, copied from a spreadsheet with its headers, becomes rows of a schedule. You see what will be written before anything is.",
  block: "Rows of",
  text: "The list",
  textHint: "Copy the rows with their headers, then paste them here.",
  basis: "What the list is",
  basisHint: "Document, number, issue: it becomes the Basis of the rows that are new or changed.",
  headerRow: "Row of the headers",
  sign: "Decimal sign of the list",
  signs: { ".": "point: 1,250.5", ",": "comma: 1.250,5", "": "choose …" },
  columns: "Columns of the list",
  column: "In the list",
  role: "Becomes",
  unit: "Unit",
  example: "for example",
  roleOf: (header: string) => `${header} becomes`,
  unitOf: (header: string) => `Unit of ${header}`,
  name: (block: string) => `${block} (name)`,
  own: "# column: carried, not counted",
  leaveOut: "left out",
  ofAll: ", of the whole row",
  asKept: "The columns are taken as in the list pasted before.",
  chooseUnit: "choose …",
  plainPart: "part of 1",

  preview: "What will be written",
  openUnits: (headers: readonly string[]) => `Choose the unit of ${headers.join(", ")}.`,
  openSign: "1,250 can be read in two ways: choose the decimal sign of the list.",
  noName: (block: string) => `Choose the column that holds the names: “${block} (name)”.`,
  noRows: "No row of the list can be taken.",
  counts: (added: number, changed: number, same: number) =>
    `${count(added, "new row")}, ${changed} changed, ${same} unchanged.`,
  leftOut: (number: number) => `${count(number, "line")} left out`,
  line: (number: number) => `Line ${number}`,
  rows: (number: number) => `${count(number, "new row")}`,
  changed: (number: number) => `${count(number, "changed row")}: old → new`,
  change: (header: string, old: string, now: string) => `${header} ${old} → ${now}`,
  stays: (header: string, old: string, now: string) =>
    `${header} stays ${old}; the list says ${now}`,
  nothing: "empty",
  gone: (names: readonly string[]) =>
    `Not in the list, left as ${names.length === 1 ? "it is" : "they are"}: ${names.join(", ")}.`,
  unfed: (feeders: readonly string[]) =>
    `Fed from items that are not in the feed yet: ${feeders.join(", ")}.`,
  severalSay: (rows: number, note: string) => `${count(rows, "new row")}: ${note}`,
  notFed: (rows: number) =>
    `${count(rows, "new row names", "new rows name")} nothing that feeds ${rows === 1 ? "it" : "them"}: not fed yet.`,
  carried: (headers: readonly string[]) => `Carried beside the block: ${headers.join(", ")}.`,
  countsNothing: (header: string, says: string) => `${header} is carried, not counted: ${says}.`,
  rowsSay: (value: string, rows: number, sum: number, unit: string) =>
    `“${value}” in ${count(rows, "row")}${unit === "" ? "" : ` of ${amount(sum, unit)}`}`,
  sum: (inList: number, taken: number, unit: string) =>
    `${amount(inList, unit)} in the list, ${amount(taken, unit)} taken.`,
  differs: (inList: number, taken: number, unit: string) =>
    `${amount(Math.abs(inList - taken), unit)} of the list ${inList > taken ? "are missing" : "are too many"}: see the lines left out and the remarks.`,
  stated: (stated: number, unit: string) => `The list's own total says ${amount(stated, unit)}.`,
  notStated: (inList: number, unit: string) => `Its rows add up to ${amount(inList, unit)}.`,
  lines: (lines: number, taken: number, left: number) =>
    `${count(lines, "line")} read: ${count(taken, "row")} taken, ${left} left out.`,
  write: (added: number, changed: number) => `Write ${added} new and ${changed} changed rows`,
  written: (block: string, added: number, changed: number, sheet: string) =>
    `${block}: ${count(added, "new row")} and ${changed} changed on ${sheet}. Undo in the spreadsheet takes them back.`,
  notKept: "This budget has no place to keep the choice of columns.",
  remark: "Remark",

  headAgain: "the headers again",
  unitsAgain: "units",
  total: "a total of the rows above",
  section: "a title",
  page: "not an item",
  nameless: "no name",
  noFigure: (text: string) => `“${text}” is not a number`,
  noUnit: (unit: string) => `“${unit}” is not a unit of this quantity`,
  noCount: (text: string) => `“${text}” is not a whole number`,
  noSize: (text: string) => `“${text}” is not a known size`,
  noWord: (text: string, words: readonly string[]) => `“${text}” is none of ${words.join(", ")}`,
  earthCore: (text: string, cores: number) =>
    `${text}: one core is the protective conductor, ${cores} carry current`,
  twice: (name: string, called: string) =>
    `${name} is in the list twice: this one is called ${called}`,
  notItsTotal: (quantity: number, each: number, total: number, unit: string) =>
    `${quantity} × ${amount(each, unit)} is not the ${amount(total, unit)} of its total`,
} as const;
