/** Writing a call into a cell: a field for each argument, what the formula would give, and the insertion. */
import type { Entry } from "../../../functions/downfeed.js";
import { firstCell, readFormulaText } from "../../formula-reading/cell-reading.js";
import { type CellRange, type Host, HostError, OccupiedError } from "../../hosts/host.js";
import { answerLine } from "../head/answer-line.js";
import { type ArgumentField, argumentField } from "./argument-field.js";
import { rangeText, callText, withoutOwnSheet } from "../../formula-reading/argument-text.js";
import { formulaAnswer } from "../head/cell-answer-text.js";
import { code, element } from "../parts/element.js";
import { debounced, latestOnly } from "../parts/latest.js";
import { overwriteQuestion } from "../parts/overwrite-question.js";
import { hindranceAt } from "./target-cell.js";
import { words } from "../../words/words.js";

const said = words.call;

export interface FunctionForm {
  readonly element: HTMLElement;
  refresh(): void;
}

/** What is typed, as a formula; or the first field that is not right. */
type Typed =
  | { readonly ok: true; readonly formula: string }
  | { readonly ok: false; readonly field: ArgumentField; readonly why: string };

const PREVIEW_DELAY_MS = 150;

export function functionForm(
  host: Host,
  entry: Entry,
  failed: (error: unknown) => void,
): FunctionForm {
  const target = element("p", { class: "feed-quiet feed-target" });
  const preview = element("div", { class: "feed-preview" });
  const status = element("p", { class: "feed-status", role: "status" });
  const question = element("div", {});
  const newest = latestOnly();
  const later = debounced(() => {
    showPreview().catch(failed);
  }, PREVIEW_DELAY_MS);
  const parameters = Object.values(entry.parameters);
  const fields = parameters.map((parameter) =>
    argumentField(parameter, later.request, (field) => {
      fillFromSelection(field).catch(failed);
    }),
  );
  const optional = optionalFields(fields.filter((_, index) => parameters[index]?.optional));
  const insert = element("button", { type: "submit", class: "feed-button feed-main" }, said.insert);

  async function typed(sheet: string): Promise<Typed> {
    const names = await host.names();
    const texts: string[] = [];
    for (const field of fields) {
      const text = field.read(names);
      if (!text.ok) return { ok: false, field, why: text.why };
      texts.push(withoutOwnSheet(text.text, sheet));
    }
    return { ok: true, formula: callText(host.namespace, entry.id, texts) };
  }

  async function showPreview(): Promise<void> {
    const isNewest = newest();
    const at = firstCell(await host.selection());
    const read = await typed(at.sheet);
    const answer = read.ok
      ? formulaAnswer(await readFormulaText(host, read.formula, at.sheet), host.namespace)
      : undefined;
    if (!isNewest()) return;
    target.textContent = said.at(rangeText(at));
    preview.replaceChildren(
      ...(read.ok ? [formulaLine(read.formula)] : []),
      ...(answer ? [answerLine(answer)] : []),
    );
  }

  async function fillFromSelection(field: ArgumentField): Promise<void> {
    field.fill(rangeText(await host.selection()));
    field.complain(undefined);
    field.focus();
  }

  async function insertCall(): Promise<void> {
    status.textContent = "";
    question.replaceChildren();
    for (const field of fields) field.complain(undefined);
    const at = firstCell(await host.selection());
    const read = await typed(at.sheet);
    if (!read.ok) {
      read.field.complain(read.why);
      if (optional?.contains(read.field.element)) optional.open = true;
      read.field.focus();
      return;
    }
    const reading = await readFormulaText(host, read.formula, at.sheet);
    const hindrance = await hindranceAt(host, at, read.formula, reading);
    if (hindrance !== undefined) status.textContent = hindrance;
    else await write(at, read.formula, false);
  }

  async function write(at: CellRange, formula: string, overwrite: boolean): Promise<void> {
    try {
      await host.write(at, [[formula]], { overwrite });
      status.textContent = said.inserted(rangeText(at));
    } catch (error) {
      if (error instanceof OccupiedError) ask(at, formula);
      else if (error instanceof HostError) status.textContent = error.message;
      else throw error;
    }
  }

  function ask(at: CellRange, formula: string): void {
    overwriteQuestion(question, rangeText(at), (answer) => {
      insert.focus();
      if (answer === "overwrite") write(at, formula, true).catch(failed);
      else status.textContent = said.kept(rangeText(at));
    });
  }

  const form = element(
    "form",
    {
      class: "feed-form",
      novalidate: true,
      "aria-label": said.title(entry.id),
    },
    ...fields.filter((_, index) => !parameters[index]?.optional).map((field) => field.element),
    optional,
    preview,
    target,
    element("div", { class: "feed-actions" }, insert),
    question,
    status,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    insertCall().catch(failed);
  });
  return { element: form, refresh: later.request };
}

function optionalFields(fields: readonly ArgumentField[]): HTMLDetailsElement | undefined {
  if (fields.length === 0) return undefined;
  return element(
    "details",
    { class: "feed-more" },
    element("summary", { class: "feed-more-name" }, said.more(fields.length)),
    ...fields.map((field) => field.element),
  );
}

function formulaLine(formula: string): HTMLElement {
  return element(
    "p",
    { class: "feed-answer-line" },
    element("span", { class: "feed-quiet" }, `${said.formula} `),
    code(formula),
  );
}
