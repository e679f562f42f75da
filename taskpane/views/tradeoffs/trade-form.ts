/** The fields of a trade-off, and the request that stands in them. */
import type { TradeRequest } from "../../../src/tradeoffs/trade-request.js";
import {
  TRADE_FIELDS,
  type TradeField,
  TradeFieldError,
  tradeRequest,
} from "../../tradeoffs/trade-fields.js";
import { element, freshId } from "../parts/element.js";

export interface TradeForm {
  readonly groups: readonly HTMLElement[];
  /** Nothing where a field cannot be: it is marked, shown, and said why. */
  request(): TradeRequest | undefined;
}

type Entry = HTMLInputElement | HTMLSelectElement;

export function tradeForm(say: (message: string) => void): TradeForm {
  const entries = new Map<string, Entry>();
  const groups = TRADE_FIELDS.map(({ title, fields }, index) =>
    element(
      "details",
      { class: "feed-block", open: index === 0 },
      element("summary", {}, title),
      element(
        "div",
        { class: "feed-trade-fields" },
        ...fields.map((field) => fieldRow(field, entries)),
      ),
    ),
  );
  return {
    groups,
    request() {
      for (const entry of entries.values()) entry.removeAttribute("aria-invalid");
      try {
        return tradeRequest(new Map([...entries].map(([key, { value }]) => [key, value])));
      } catch (error) {
        if (!(error instanceof TradeFieldError)) throw error;
        say(error.message);
        blame(entries.get(error.key));
        return undefined;
      }
    },
  };
}

function blame(entry: Entry | undefined): void {
  entry?.setAttribute("aria-invalid", "true");
  entry?.closest("details")?.setAttribute("open", "");
  entry?.focus();
}

function fieldRow(field: TradeField, entries: Map<string, Entry>): HTMLElement {
  const { key, label, unit } = field;
  const id = freshId("trade");
  const entry = entryOf(field, id);
  entries.set(key, entry);
  return element(
    "div",
    {
      class: `feed-trade-field${field.list ? " feed-trade-list" : ""}`,
    },
    element("label", { for: id }, unit === "" || unit === "1" ? label : `${label} (${unit})`),
    entry,
  );
}

function entryOf({ start, choices }: TradeField, id: string): Entry {
  if (!choices)
    return element("input", {
      id,
      class: "feed-input",
      value: start,
      inputmode: "text",
      autocomplete: "off",
    });
  return element(
    "select",
    { id, class: "feed-input" },
    ...choices.map((choice) =>
      element("option", { value: choice, selected: choice === start }, choice),
    ),
  );
}
