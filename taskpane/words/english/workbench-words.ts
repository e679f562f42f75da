/** What the page of the workbench says around its spreadsheet and pane. */
import type { LeftOut } from "../../hosts/files/left-out.js";

export const workbenchWords = {
  group: "Workbook",
  save: "Save as .xlsx",
  saveValues: "Save values only",
  valuesSuffix: " (values)",
  open: "Open .xlsx",
  empty: "Empty workbook",
  emptyTitle: "Workbook",
  emptySheet: "Sheet1",
  emptyName: "An empty workbook",
  afresh: "Open the sample",
  undo: "Undo",
  redo: "Redo",
  stepped: { undo: "The last step is undone.", redo: "The step is done again." },
  noStep: { undo: "There is nothing to undo.", redo: "There is nothing to do again." },
  saving: "Saving …",
  opening: "Opening …",
  saved: (name: string) => `${name} is saved.`,
  opened: (name: string) => `${name} is open.`,
  openedEmpty: "An empty workbook is open.",
  startedAfresh: "The sample is open.",
  restored: "The workbook from last time is open again.",
  leftOutTitle: "What was left out",
  leftOutOfOpened: (name: string) => `${name} is open, but the workbench has no place for:`,
  leftOutOfSaved: (name: string) => `${name} is saved, but a file has no place for:`,
  leftOutLine: ({ what, count, where }: LeftOut) => {
    const times = count > 1 ? `${count.toLocaleString()} times` : "";
    const place = where !== "" && count > 1 ? `first: ${where}` : where;
    const more = [times, place].filter((part) => part !== "").join(", ");
    return more === "" ? what : `${what} (${more})`;
  },
  close: "Close",
  cancel: "Cancel",
  replaceTitle: "Replace the workbook?",
  replaceText: (name: string) =>
    `${name} takes the place of the workbook in the page, with all changes since it was last saved as a file.`,
  replace: "Replace it",
  afreshTitle: "Open the sample instead?",
  afreshText:
    "The workbook in the page, and what the browser keeps of it, are deleted. Files that you saved stay.",
  afreshDo: "Delete it",
  keeping: "Keeping …",
  kept: "Kept in this browser",
  notKept: "Not kept in this browser",
  otherTab:
    "Another tab of the workbench keeps its workbook; the changes in this one are not kept until that tab is closed. Save a copy before you leave.",
  newer:
    "Another tab has kept a newer workbook, which stays. The changes in this one are not kept: save a copy, or reload the page to open the newer one.",
  paneWidth: "Width of the pane: arrow keys, Home, End; Enter for the usual one",
  pixels: (width: number) => `${width} pixels`,
  saveCopy: "Save a copy as .xlsx",
  setAside: (why: string) =>
    `The workbook from last time could not be opened (${why}). It is set aside in the browser's storage; the sample is open.`,
  unkept: (why: string) =>
    `The browser does not keep this workbook (${why}). Save it as .xlsx before you leave.`,
  unopened: (why: string) =>
    `The spreadsheet could not be opened: ${why}. Reload the page to try again.`,
  notWritten: "Not written",
  understood: "OK",
  results: {
    Solved: "voltages, currents and losses of each item",
    Bands: "voltage bands of each node",
    Checks: "every check in the case that is worst for it",
  },
  noResults: "There is no budget in this workbook.",
  unreadResults: (why: string) => `The results cannot be read: ${why}`,
} as const;
