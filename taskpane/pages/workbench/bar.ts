/** Saving, opening and starting afresh, in the bar above the sheet. */
import type { LeftOut } from "../../hosts/files/left-out.js";
import { readFile, writeFile } from "../../hosts/files/file-run.js";
import { valuesOnly } from "../../hosts/files/values-only.js";
import type { OpenedWorkbench, OpeningContent } from "../../hosts/workbench/snapshots/opening.js";
import { emptyWorkbook, type WorkbookSnapshot } from "../../hosts/files/workbook-snapshot.js";
import { samples } from "../../budgets/samples/samples.js";
import { fileName } from "../../workbook/file-name.js";
import { findBudgets, titleOf } from "../../workbook/found-budgets.js";
import { button, element } from "../../views/parts/element.js";
import type { Keeping } from "./autosave.js";
import { asked, listed } from "./dialog.js";
import { workbenchWords as words } from "../../words/workbench-words.js";

export interface BarOptions {
  workbook(): OpenedWorkbench | undefined;
  replace(content: OpeningContent): Promise<void>;
  /** What the workbench starts with when nothing is kept. */
  readonly first: OpeningContent;
  /** What the browser keeps is gone. */
  forget(): Promise<void>;
  /** Another workbook is there, to be kept. */
  replaced(): void;
  /** The workbook is in a file as it is. */
  filed(): void;
}

export interface Bar {
  /** Says it to everyone; a fault at once. */
  say(message: string, isFault?: boolean): void;
  /** The workbook changed: it is in no file as it is. */
  edited(): void;
  /** What the browser keeps of the changes. */
  showKeeping(keeping: Keeping): void;
  save(): void;
}

const FILE_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
const ACCEPTED = ".xlsx,.xlsm";

export function workbenchBar(root: HTMLElement, options: BarOptions): Bar {
  let isEdited = false;
  let isBusy = false;
  const message = element("p", { class: "workbench-message", role: "status" });
  const fault = element("p", { class: "workbench-message", role: "alert" });
  // Not read out: it changes with every entry.
  const keepingNow = element("span", { class: "workbench-message workbench-kept" });
  const copy = barButton(words.saveCopy, () => void oneAtATime(save));
  copy.hidden = true;
  let unkept: string | undefined;
  const chosen = element("input", {
    type: "file",
    accept: ACCEPTED,
    class: "workbench-file",
    tabindex: "-1",
    "aria-hidden": "true",
  });
  chosen.addEventListener("change", () => {
    const [file] = chosen.files ?? [];
    // The same file can be chosen again.
    chosen.value = "";
    if (file) void oneAtATime(() => open(file));
  });
  const actions = element(
    "div",
    { class: "workbench-files", role: "group", "aria-label": words.group },
    barButton(words.save, () => void oneAtATime(save)),
    barButton(words.saveValues, () => void oneAtATime(saveValues)),
    barButton(words.open, () => chosen.click()),
    barButton(words.empty, () => void oneAtATime(openEmpty)),
    barButton(words.afresh, () => void oneAtATime(startAfresh)),
    barButton(words.undo, () => void oneAtATime(() => step("undo"))),
    barButton(words.redo, () => void oneAtATime(() => step("redo"))),
    chosen,
  );
  root.replaceChildren(actions, keepingNow, message, fault, copy);

  function say(text: string, isFault = false): void {
    message.textContent = isFault ? "" : text;
    fault.textContent = isFault ? text : "";
    copy.hidden = !isFault || text !== unkept;
  }

  function showKeeping(keeping: Keeping): void {
    const before = unkept;
    unkept = unkeptWords(keeping);
    keepingNow.textContent = keptWords(keeping, unkept);
    if (unkept !== undefined) say(unkept, true);
    else if (before !== undefined && fault.textContent === before) say("");
  }

  async function oneAtATime(action: () => Promise<void>): Promise<void> {
    if (isBusy || !options.workbook()) return;
    isBusy = true;
    try {
      await action();
    } catch (error) {
      say(reasonOf(error), true);
    } finally {
      isBusy = false;
    }
  }

  async function save(): Promise<void> {
    await written("", (snapshot) => snapshot);
    isEdited = false;
    options.filed();
  }

  /** Saves values for spreadsheets that do not know the cell functions; the workbook itself counts as unsaved still. */
  async function saveValues(): Promise<void> {
    await written(words.valuesSuffix, valuesOnly);
  }

  async function written(
    suffix: string,
    change: (snapshot: WorkbookSnapshot) => WorkbookSnapshot,
  ): Promise<void> {
    const workbook = options.workbook();
    if (!workbook) return;
    say(words.saving);
    await workbook.host.finishTyping();
    const { snapshot, leftOut } = await workbook.takeSnapshot();
    const file = await writeFile(change(snapshot));
    const name = `${fileName(await titleOfWorkbook(workbook))}${suffix}.xlsx`;
    handOver(file.bytes, name);
    say(words.saved(name));
    tellLeftOut(words.leftOutOfSaved(name), [...leftOut, ...file.leftOut]);
  }

  async function open(file: File): Promise<void> {
    say(words.opening);
    const { snapshot, leftOut } = await readFile(file);
    const title = file.name.replace(/\.[^.]*$/, "");
    if (!(await replaced(file.name, snapshot, title))) return say("");
    say(words.opened(file.name));
    tellLeftOut(words.leftOutOfOpened(file.name), leftOut);
  }

  async function openEmpty(): Promise<void> {
    const snapshot = emptyWorkbook(words.emptySheet);
    if (await replaced(words.emptyName, snapshot, words.emptyTitle)) say(words.openedEmpty);
  }

  /** @returns false where its user would rather keep what is open. */
  async function replaced(
    name: string,
    snapshot: WorkbookSnapshot,
    title: string,
  ): Promise<boolean> {
    const isWanted =
      !isEdited || (await asked(words.replaceTitle, words.replaceText(name), words.replace));
    if (!isWanted) return false;
    await options.replace({ kind: "snapshot", snapshot, title });
    options.replaced();
    isEdited = false;
    return true;
  }

  async function step(way: "undo" | "redo"): Promise<void> {
    const isDone = await options.workbook()?.host.step(way);
    say(isDone ? words.stepped[way] : words.noStep[way]);
  }

  async function startAfresh(): Promise<void> {
    const isWanted = await asked(words.afreshTitle, words.afreshText, words.afreshDo);
    if (!isWanted) return;
    await options.replace(options.first);
    await options.forget();
    isEdited = false;
    say(words.startedAfresh);
  }

  return {
    say,
    edited() {
      isEdited = true;
    },
    showKeeping,
    save: () => void oneAtATime(save),
  };
}

/** Why the changes are not kept, where they are not. */
function unkeptWords(keeping: Keeping): string | undefined {
  switch (keeping.state) {
    case "another tab":
      return words.otherTab;
    case "newer":
      return words.newer;
    case "failed":
      return words.unkept(reasonOf(keeping.error));
    default:
      return undefined;
  }
}

function keptWords({ state }: Keeping, unkept: string | undefined): string {
  if (unkept !== undefined) return words.notKept;
  if (state === "nothing") return "";
  return state === "kept" ? words.kept : words.keeping;
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** The title of the opened file; a workbook that began as a sample or empty has the title of its first budget. */
async function titleOfWorkbook({ title, host }: OpenedWorkbench): Promise<string> {
  if (title !== words.emptyTitle && !SAMPLE_TITLES.has(title)) return title;
  const [budget] = (await findBudgets(host)).budgets;
  return budget ? titleOf(budget) : title;
}

const SAMPLE_TITLES: ReadonlySet<string> = new Set(samples.map(({ document }) => document.title));

function barButton(label: string, press: () => void): HTMLButtonElement {
  return button(label, press, { class: "workbench-button" });
}

function tellLeftOut(text: string, leftOut: readonly LeftOut[]): void {
  if (leftOut.length > 0) listed(words.leftOutTitle, text, leftOut.map(words.leftOutLine));
}

/** Hands the file to the browser's own way of saving. */
function handOver(bytes: Uint8Array, name: string): void {
  const address = URL.createObjectURL(
    new Blob([bytes as Uint8Array<ArrayBuffer>], { type: FILE_TYPE }),
  );
  element("a", { href: address, download: name }).click();
  // Not before the browser has begun to fetch it.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
