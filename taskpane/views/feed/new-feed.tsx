/** Begins a feed: a few figures in, sheets with empty schedules out. */
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { CONDITIONS, FRAMEWORKS } from "../../../src/safety/touch-bands.js";
import { feedWords } from "../../words/feed-words.js";
import { typedNumber } from "../../words/shown-numbers.js";
import { AnsweredForm, type FocusHome } from "../parts/answered-form.js";
import { freshId } from "../parts/element.js";
import type { NewFeed } from "../../workbook/new-feed.js";

const said = feedWords.newFeed;

export interface NewFeedFormProps {
  readonly create: (feed: NewFeed) => Promise<void>;
  readonly cancel: () => void;
  readonly home: FocusHome;
}

const NUMBERS = [
  ["nominal", said.nominal],
  ["lowest", said.lowest],
  ["highest", said.highest],
  ["coldest", said.coldest],
  ["hottest", said.hottest],
  ["altitude", said.altitude],
] as const;

type NumberField = (typeof NUMBERS)[number][0];

export function NewFeedForm({ create, cancel, home }: NewFeedFormProps) {
  const stem = useMemo(() => freshId("new-feed"), []);
  const first = useRef<HTMLInputElement>(null);
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({});
  const [fault, setFault] = useState("");
  const [busy, setBusy] = useState(false);
  useLayoutEffect(() => first.current?.focus(), []);
  const text = (field: string) => texts[field] ?? "";
  const set = (field: string, value: string) => setTexts({ ...texts, [field]: value });

  const submit = async () => {
    const read = readForm(text);
    if ("fault" in read) return setFault(read.fault);
    setFault("");
    setBusy(true);
    try {
      await create(read.feed);
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
      setBusy(false);
    }
  };
  const input = (field: string, label: string) => (
    <div class="feed-argument">
      <label class="feed-label" for={`${stem}-${field}`}>
        {label}
      </label>
      <input
        class="feed-input"
        id={`${stem}-${field}`}
        ref={field === "name" ? first : null}
        value={text(field)}
        inputMode={field === "name" ? "text" : "decimal"}
        onInput={({ currentTarget }) => set(field, currentTarget.value)}
      />
    </div>
  );
  const select = (field: string, label: string, choices: readonly string[]) => (
    <div class="feed-argument">
      <label class="feed-label" for={`${stem}-${field}`}>
        {label}
      </label>
      <select
        class="feed-input"
        id={`${stem}-${field}`}
        value={text(field)}
        onChange={({ currentTarget }) => set(field, currentTarget.value)}
      >
        <option value="">{said.choose}</option>
        {choices.map((one) => (
          <option key={one}>{one}</option>
        ))}
      </select>
    </div>
  );
  return (
    <AnsweredForm
      label={said.title}
      fault={fault}
      yes={said.create}
      no={feedWords.cancel}
      isReady={!busy}
      submit={() => void submit()}
      leave={cancel}
      home={home}
    >
      <h2 class="feed-heading">{said.title}</h2>
      <p class="feed-quiet">{said.about}</p>
      {input("name", said.name)}
      <div class="feed-three">
        {input("nominal", said.nominal)}
        {input("lowest", said.lowest)}
        {input("highest", said.highest)}
      </div>
      {select("framework", said.framework, FRAMEWORKS)}
      {select("place", said.place, CONDITIONS)}
      <div class="feed-three">
        {input("coldest", said.coldest)}
        {input("hottest", said.hottest)}
        {input("altitude", said.altitude)}
      </div>
      <p class="feed-status" role="status">
        {busy ? said.creating : ""}
      </p>
    </AnsweredForm>
  );
}

type ReadForm = { readonly feed: NewFeed } | { readonly fault: string };

/** Only the name is needed: what is left out stays empty on the sheets, and the checks ask for it. */
function readForm(text: (field: string) => string): ReadForm {
  const title = text("name").trim();
  if (title === "") return { fault: feedWords.nameNeeded };
  const numbers: Partial<Record<NumberField, number>> = {};
  for (const [field, label] of NUMBERS) {
    const typed = text(field).trim();
    if (typed === "") continue;
    const number = typedNumber(typed);
    if (typeof number !== "number") return { fault: said.numberNeeded(label) };
    numbers[field] = number;
  }
  const { lowest, nominal, highest, coldest, hottest } = numbers;
  const rises = [lowest, nominal, highest].filter((one) => one !== undefined);
  if (rises.some((one, index) => index > 0 && one < rises[index - 1]!))
    return { fault: said.order };
  if (coldest !== undefined && hottest !== undefined && coldest > hottest)
    return { fault: said.temperatures };
  return { feed: { title, ...numbers, framework: text("framework"), place: text("place") } };
}
