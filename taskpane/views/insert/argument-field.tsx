/** One argument of a call: its label, an input or a choice, and the way to take the selected cells. */
import type { Ref } from "preact";
import { useMemo } from "preact/hooks";
import type { Parameter } from "../../../functions/downfeed.js";
import { OFFERED_SIZES } from "../../budgets/offered-sizes.js";
import { words } from "../../words/words.js";
import { Button } from "../parts/button.js";
import { freshId } from "../parts/element.js";

const said = words.argument;

export interface ArgumentFieldProps {
  readonly parameter: Parameter;
  readonly text: string;
  /** Why it is wrong; "" where it is not known to be. */
  readonly fault: string;
  readonly input: Ref<HTMLElement>;
  readonly change: (text: string) => void;
  readonly pick: () => void;
}

export function ArgumentField(props: ArgumentFieldProps) {
  const { parameter, text, fault, input, change, pick } = props;
  const id = useMemo(() => freshId("argument"), []);
  const common = {
    class: "feed-input",
    id,
    value: text,
    "aria-describedby": `${id}-hint ${id}-fault`,
    "aria-required": !parameter.optional,
    "aria-invalid": fault === "" ? undefined : true,
  };
  const isNumber = parameter.kind === "number" || parameter.kind === "numbers";
  const offered = offeredFor(parameter);
  return (
    <div class="feed-field">
      <label class="feed-label" for={id}>
        {parameter.name}
        {parameter.unit !== "" && parameter.unit !== "1" && (
          <span class="feed-unit"> {parameter.unit}</span>
        )}
        <span class={parameter.optional ? "feed-optional" : "feed-required"}>
          {` ${parameter.optional ? said.optional : said.required}`}
        </span>
      </label>
      <div class="feed-field-row">
        {parameter.kind === "choice" ? (
          <select
            {...common}
            ref={input as Ref<HTMLSelectElement>}
            onInput={({ currentTarget }) => change(currentTarget.value)}
          >
            <option value="">{parameter.optional ? said.leaveOut : said.choose}</option>
            {choicesWith(parameter.choices, text).map((choice) => (
              <option key={choice} value={choice}>
                {choice}
              </option>
            ))}
          </select>
        ) : (
          <input
            {...common}
            ref={input as Ref<HTMLInputElement>}
            type="text"
            autocomplete="off"
            spellcheck={false}
            autocapitalize={isNumber ? "characters" : "none"}
            list={offered.length > 0 ? `${id}-offered` : undefined}
            onInput={({ currentTarget }) => change(currentTarget.value)}
          />
        )}
        {parameter.kind !== "choice" && offered.length > 0 && (
          <datalist id={`${id}-offered`}>
            {offered.map((choice) => (
              <option key={choice} value={choice} />
            ))}
          </datalist>
        )}
        <Button
          class="feed-button feed-pick"
          aria-label={said.useSelectionFor(parameter.name)}
          press={pick}
        >
          {said.useSelection}
        </Button>
      </div>
      <p class="feed-hint" id={`${id}-hint`}>
        {hintOn(parameter)}
      </p>
      <p class="feed-fault" id={`${id}-fault`}>
        {fault}
      </p>
    </div>
  );
}

/** What a list shows while it is typed; anything else may be. */
function offeredFor(parameter: Parameter): readonly string[] {
  // The one argument that takes a number or a text is the size of a conductor.
  if (parameter.kind === "number or text") return OFFERED_SIZES;
  return "choices" in parameter ? parameter.choices : [];
}

/** A choice may be taken from a cell as well. */
function choicesWith(choices: readonly string[], text: string): readonly string[] {
  return text === "" || choices.includes(text) ? choices : [...choices, text];
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
