/** Every function of the catalogue, searched by id, purpose and family; each opens to its description and its form. */
import { type Entry, catalogue } from "../../../functions/downfeed.js";
import type { Host } from "../../hosts/host.js";
import { element, freshId } from "../parts/element.js";
import { functionDescription } from "./function-description.js";
import { type FunctionForm, functionForm } from "./function-form.js";
import { words } from "../../words/words.js";

const said = words.functions;

export interface FunctionFinder {
  readonly element: HTMLElement;
  /** Open forms follow the selection and the cells they name. */
  refresh(): void;
}

interface Listed {
  readonly entry: Entry;
  readonly details: HTMLElement;
  readonly group: HTMLElement;
}

export function functionFinder(host: Host, failed: (error: unknown) => void): FunctionFinder {
  const [headingId, searchId, hintId] = [freshId("functions"), freshId("search"), freshId("hint")];
  const search = element("input", {
    class: "feed-input feed-search",
    type: "search",
    id: searchId,
    "aria-describedby": hintId,
    autocomplete: "off",
    spellcheck: "false",
  });
  const count = element("p", { class: "feed-quiet", role: "status" });
  const forms = new Map<HTMLElement, FunctionForm>();
  const { groups, listed } = listedByFamily(host, forms, failed);

  function filter(): void {
    const wanted = plainWords(search.value);
    let shown = 0;
    for (const { entry, details } of listed) {
      const matches = matchesAll(entry, wanted);
      details.hidden = !matches;
      if (matches) shown += 1;
    }
    for (const group of groups)
      group.hidden = listed.every((each) => each.group !== group || each.details.hidden);
    count.textContent = shown === 0 ? said.none : said.found(shown, listed.length);
  }

  search.addEventListener("input", filter);
  filter();
  return {
    element: element(
      "section",
      { class: "feed-section", "aria-labelledby": headingId },
      element("h2", { class: "feed-heading", id: headingId }, said.title),
      element("label", { class: "feed-label", for: searchId }, said.search),
      search,
      element("p", { class: "feed-hint", id: hintId }, said.searchHint),
      count,
      ...groups,
    ),
    refresh() {
      for (const [details, form] of forms) if (details.hasAttribute("open")) form.refresh();
    },
  };
}

function listedByFamily(
  host: Host,
  forms: Map<HTMLElement, FunctionForm>,
  failed: (error: unknown) => void,
) {
  const families = [...new Set(catalogue.map(({ family }) => family))];
  const listed: Listed[] = [];
  const groups = families.map((family) => {
    const group = element(
      "div",
      { class: "feed-family" },
      element("h3", { class: "feed-group-heading" }, familyName(family)),
    );
    for (const entry of catalogue.filter((each) => each.family === family)) {
      const details = functionDetails(host, entry, forms, failed);
      group.append(details);
      listed.push({ entry, details, group });
    }
    return group;
  });
  return { groups, listed };
}

function familyName(family: string): string {
  return said.family[family] ?? family;
}

/** Filled when it is opened first: sixty forms at once would be for nothing. */
function functionDetails(
  host: Host,
  entry: Entry,
  forms: Map<HTMLElement, FunctionForm>,
  failed: (error: unknown) => void,
): HTMLElement {
  const details = element(
    "details",
    { class: "feed-function" },
    element(
      "summary",
      { class: "feed-function-name" },
      element("code", { class: "feed-code" }, entry.id),
    ),
  );
  details.addEventListener("toggle", () => {
    if (!details.open || forms.has(details)) return;
    const form = functionForm(host, entry, failed);
    forms.set(details, form);
    details.append(functionDescription(entry, host.namespace), form.element);
    form.refresh();
  });
  return details;
}

function plainWords(text: string): string[] {
  return text
    .toLowerCase()
    .replaceAll("_", " ")
    .split(/[\s,.()]+/)
    .filter((word) => word !== "");
}

/** Each word somewhere in the id, the purpose, the family or the arguments' names. */
function matchesAll(entry: Entry, wanted: readonly string[]): boolean {
  const names = Object.values(entry.parameters).map(({ name }) => name);
  const { id, family, purpose } = entry;
  const text = [id, familyName(family), family, purpose, ...names]
    .join(" ")
    .toLowerCase()
    .replaceAll("_", " ");
  return wanted.every((word) => text.includes(word));
}
