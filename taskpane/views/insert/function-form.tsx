/** Writing a call into a cell: a field for each argument, what the formula would give, and the insertion. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { Entry } from "../../../functions/downfeed.js";
import {
  rangeText,
  argumentText,
  callText,
  withoutOwnSheet,
} from "../../formula-reading/argument-text.js";
import { type CellHost, readFormulaText } from "../../formula-reading/cell-reading.js";
import { type CellRange, HostError, OccupiedError } from "../../hosts/host.js";
import { firstCell } from "../../hosts/ranges.js";
import { words } from "../../words/words.js";
import { AnswerLineText } from "../head/answer-line.js";
import { type AnswerLine, formulaAnswer } from "../head/cell-answer-text.js";
import { Code } from "../parts/code.js";
import { OverwriteQuestion } from "../parts/overwrite-question.js";
import { useTools } from "../parts/tools.js";
import { ArgumentField } from "./argument-field.js";
import { hindranceAt } from "./target-cell.js";

const said = words.call;

/** The selected cell; another one for each reading of it, though it be the same cell. */
export interface Target {
  readonly at: CellRange;
}

export interface FunctionFormProps {
  readonly entry: Entry;
  readonly reading: CellHost;
  /** Where the formula would go; undefined while nothing is read for it. What it gives is read anew for each. */
  readonly target: Target | undefined;
}

/** What is typed, as a formula; or the first field that is not right. */
type Typed =
  | { readonly ok: true; readonly formula: string }
  | { readonly ok: false; readonly index: number; readonly why: string };

interface Preview {
  readonly at: string;
  readonly formula?: string;
  readonly answer?: AnswerLine;
}

const PREVIEW_DELAY_MS = 150;

export function FunctionForm({ entry, reading, target }: FunctionFormProps) {
  const { host, failed } = useTools();
  const parameters = Object.values(entry.parameters);
  const [texts, type] = useState<readonly string[]>(() => parameters.map(() => ""));
  const [fault, complain] = useState<{ readonly index: number; readonly why: string }>();
  const [preview, showPreview] = useState<Preview>();
  const [status, say] = useState("");
  const [occupied, ask] = useState<{ readonly at: CellRange; readonly formula: string }>();
  const inputs = useRef<(HTMLElement | null)[]>([]);
  const more = useRef<HTMLDetailsElement>(null);
  const insert = useRef<HTMLButtonElement>(null);

  async function typed(sheet: string, from: CellHost): Promise<Typed> {
    const names = await from.names();
    const read: string[] = [];
    for (const [index, parameter] of parameters.entries()) {
      const text = argumentText(parameter, texts[index] ?? "", names);
      if (!text.ok) return { ok: false, index, why: text.why };
      read.push(withoutOwnSheet(text.text, sheet));
    }
    return { ok: true, formula: callText(host.namespace, entry.id, read) };
  }

  async function previewed({ at }: Target): Promise<Preview> {
    const read = await typed(at.sheet, reading);
    if (!read.ok) return { at: rangeText(at) };
    const gives = await readFormulaText(reading, read.formula, at.sheet);
    const answer = formulaAnswer(gives, host.namespace, host.shownFormula);
    return { at: rangeText(at), formula: read.formula, answer };
  }

  useEffect(() => {
    if (!target) return;
    let isNewest = true;
    const later = setTimeout(() => {
      previewed(target).then((read) => isNewest && showPreview(read), failed);
    }, PREVIEW_DELAY_MS);
    return () => {
      isNewest = false;
      clearTimeout(later);
    };
  }, [texts, target]);

  function change(index: number, text: string): void {
    type((before) => before.map((one, at) => (at === index ? text : one)));
  }

  async function fillFromSelection(index: number): Promise<void> {
    change(index, rangeText(await host.selection()));
    complain(undefined);
    inputs.current[index]?.focus();
  }

  async function insertCall(): Promise<void> {
    say("");
    ask(undefined);
    complain(undefined);
    const at = firstCell(await host.selection());
    const read = await typed(at.sheet, host);
    if (!read.ok) {
      complain(read);
      const input = inputs.current[read.index];
      if (more.current?.contains(input ?? null)) more.current.open = true;
      input?.focus();
      return;
    }
    const gives = await readFormulaText(host, read.formula, at.sheet);
    const hindrance = await hindranceAt(host, at, read.formula, gives);
    if (hindrance !== undefined) say(hindrance);
    else await write(at, read.formula, false);
  }

  async function write(at: CellRange, formula: string, overwrite: boolean): Promise<void> {
    try {
      await host.write(at, [[formula]], { overwrite });
      say(said.inserted(rangeText(at)));
    } catch (error) {
      if (error instanceof OccupiedError) ask({ at, formula });
      else if (error instanceof HostError) say(error.message);
      else throw error;
    }
  }

  const field = (index: number) => {
    const parameter = parameters[index]!;
    return (
      <ArgumentField
        key={parameter.name}
        parameter={parameter}
        text={texts[index] ?? ""}
        fault={fault?.index === index ? fault.why : ""}
        input={(made) => {
          inputs.current[index] = made;
        }}
        change={(text) => change(index, text)}
        pick={() => void fillFromSelection(index).catch(failed)}
      />
    );
  };
  const all = [...parameters.keys()];
  const optional = all.filter((index) => parameters[index]?.optional);
  return (
    <form
      class="feed-form"
      noValidate
      aria-label={said.title(entry.id)}
      onSubmit={(event) => {
        event.preventDefault();
        insertCall().catch(failed);
      }}
    >
      {all.filter((index) => !parameters[index]?.optional).map(field)}
      {optional.length > 0 && (
        <details class="feed-more" ref={more}>
          <summary class="feed-more-name">{said.more(optional.length)}</summary>
          {optional.map(field)}
        </details>
      )}
      <div class="feed-preview">
        {preview?.formula !== undefined && (
          <p class="feed-answer-line">
            <span class="feed-quiet">{`${said.formula} `}</span>
            <Code text={preview.formula} />
          </p>
        )}
        {preview?.answer && <AnswerLineText line={preview.answer} />}
      </div>
      <p class="feed-quiet feed-target">{preview && said.at(preview.at)}</p>
      <div class="feed-actions">
        <button type="submit" class="feed-button feed-main" ref={insert}>
          {said.insert}
        </button>
      </div>
      {occupied && (
        <OverwriteQuestion
          cell={rangeText(occupied.at)}
          answer={(given) => {
            ask(undefined);
            insert.current?.focus();
            if (given === "keep") say(said.kept(rangeText(occupied.at)));
            else write(occupied.at, occupied.formula, true).catch(failed);
          }}
        />
      )}
      <p class="feed-status" role="status">
        {status}
      </p>
    </form>
  );
}
