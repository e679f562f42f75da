/** One argument of a call: its label, an input or a choice, and the way to take the selected cells. */
import type { Parameter } from "../../../functions/downfeed.js";
import type { HostName } from "../../hosts/host.js";
import { type ArgumentText, argumentText } from "../../formula-reading/argument-text.js";
import { button, element, freshId } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.argument;

export interface ArgumentField {
  readonly element: HTMLElement;
  read(names: readonly HostName[]): ArgumentText;
  /** Marks the field as wrong and says why; nothing takes the mark away. */
  complain(why: string | undefined): void;
  fill(text: string): void;
  focus(): void;
}

export function argumentField(
  parameter: Parameter,
  changed: () => void,
  pick: (field: ArgumentField) => void,
): ArgumentField {
  const [inputId, hintId, faultId] = [freshId("argument"), freshId("hint"), freshId("fault")];
  const described = {
    id: inputId,
    "aria-describedby": `${hintId} ${faultId}`,
    "aria-required": parameter.optional ? "false" : "true",
  };
  const input =
    parameter.kind === "choice"
      ? choiceInput(parameter, described)
      : typedInput(parameter, described);
  const fault = element("p", { class: "feed-fault", id: faultId });
  input.addEventListener("input", changed);

  const field: ArgumentField = {
    element: element(
      "div",
      { class: "feed-field" },
      labelFor(parameter, inputId),
      element(
        "div",
        { class: "feed-field-row" },
        input,
        button(said.useSelection, () => pick(field), {
          class: "feed-button feed-pick",
          "aria-label": said.useSelectionFor(parameter.name),
        }),
      ),
      element("p", { class: "feed-hint", id: hintId }, hintOn(parameter)),
      fault,
    ),
    read: (names) => argumentText(parameter, input.value, names),
    complain(why) {
      fault.textContent = why ?? "";
      if (why === undefined) input.removeAttribute("aria-invalid");
      else input.setAttribute("aria-invalid", "true");
    },
    fill(text) {
      // A choice may be taken from a cell as well.
      if (input instanceof HTMLSelectElement)
        input.append(element("option", { value: text }, text));
      input.value = text;
      changed();
    },
    focus: () => input.focus(),
  };
  return field;
}

function labelFor(parameter: Parameter, inputId: string): HTMLElement {
  const unit = parameter.unit === "" || parameter.unit === "1" ? "" : parameter.unit;
  return element(
    "label",
    { class: "feed-label", for: inputId },
    parameter.name,
    unit === "" ? undefined : element("span", { class: "feed-unit" }, ` ${unit}`),
    element(
      "span",
      { class: parameter.optional ? "feed-optional" : "feed-required" },
      ` ${parameter.optional ? said.optional : said.required}`,
    ),
  );
}

function choiceInput(
  parameter: Parameter & { kind: "choice" },
  attributes: Readonly<Record<string, string>>,
): HTMLSelectElement {
  const none = parameter.optional ? said.leaveOut : said.choose;
  return element(
    "select",
    { class: "feed-input", ...attributes },
    element("option", { value: "" }, none),
    ...parameter.choices.map((choice) => element("option", { value: choice }, choice)),
  );
}

function typedInput(
  parameter: Parameter,
  attributes: Readonly<Record<string, string>>,
): HTMLInputElement {
  const isNumber = parameter.kind === "number" || parameter.kind === "numbers";
  return element("input", {
    class: "feed-input",
    type: "text",
    autocomplete: "off",
    spellcheck: "false",
    autocapitalize: isNumber ? "characters" : "none",
    ...attributes,
  });
}

function hintOn(parameter: Parameter): string {
  const more = {
    cells: said.range,
    numbers: said.several,
  } as Readonly<Record<string, string>>;
  const listed = "choices" in parameter && parameter.kind !== "choice";
  return [
    sentence(parameter.meaning),
    more[parameter.kind],
    listed ? said.choices(parameter.choices) : undefined,
  ]
    .filter((part) => part !== undefined)
    .join(" ");
}

function sentence(text: string): string {
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}
