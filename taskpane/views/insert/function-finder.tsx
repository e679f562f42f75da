/** Every function of the catalogue, searched by id, purpose and family; each opens to its description and its form. */
import type { RefObject } from "preact";
import { useMemo, useState } from "preact/hooks";
import { PURPOSES } from "../../../functions/documents/purposes.js";
import { type Entry, catalogue } from "../../../functions/downfeed.js";
import type { CellHost } from "../../formula-reading/cell-reading.js";
import { words } from "../../words/words.js";
import { freshId } from "../parts/element.js";
import { FunctionDescription } from "./function-description.js";
import { FunctionForm, type Target } from "./function-form.js";

const said = words.functions;

export interface FunctionFinderProps {
  readonly search: RefObject<HTMLInputElement | null>;
  readonly reading: CellHost;
  /** Open forms follow the selection and the cells they name. */
  readonly target: Target | undefined;
}

const families = [...new Set(catalogue.map(({ family }) => family))];

export function FunctionFinder({ search, reading, target }: FunctionFinderProps) {
  const stem = useMemo(() => freshId("functions"), []);
  const [wanted, want] = useState("");
  const found = useMemo(() => {
    const looked = plainWords(wanted);
    return new Set(catalogue.filter((entry) => matchesAll(entry, looked)));
  }, [wanted]);
  return (
    <section class="feed-section" aria-labelledby={stem}>
      <h2 class="feed-heading" id={stem}>
        {said.title}
      </h2>
      <label class="feed-label" for={`${stem}-search`}>
        {said.search}
      </label>
      <input
        class="feed-input feed-search"
        type="search"
        id={`${stem}-search`}
        ref={search}
        aria-describedby={`${stem}-hint`}
        autocomplete="off"
        spellcheck={false}
        value={wanted}
        onInput={({ currentTarget }) => want(currentTarget.value)}
      />
      <p class="feed-hint" id={`${stem}-hint`}>
        {said.searchHint}
      </p>
      <p class="feed-quiet" role="status">
        {found.size === 0 ? said.none : said.found(found.size, catalogue.length)}
      </p>
      {families.map((family) => {
        const entries = catalogue.filter((entry) => entry.family === family);
        return (
          <div class="feed-family" key={family} hidden={!entries.some((entry) => found.has(entry))}>
            <h3 class="feed-group-heading">{familyName(family)}</h3>
            {entries.map((entry) => (
              <FoundFunction
                key={entry.id}
                entry={entry}
                isHidden={!found.has(entry)}
                {...{ reading, target }}
              />
            ))}
          </div>
        );
      })}
    </section>
  );
}

function familyName(family: string): string {
  return said.family[family] ?? family;
}

interface FoundFunctionProps extends Pick<FunctionFinderProps, "reading" | "target"> {
  readonly entry: Entry;
  readonly isHidden: boolean;
}

/** Filled when it is opened first: sixty forms at once would be for nothing. Shut, it reads nothing. */
function FoundFunction({ entry, isHidden, reading, target }: FoundFunctionProps) {
  const [wasOpened, open] = useState(false);
  const [isOpen, setOpen] = useState(false);
  return (
    <details
      class="feed-function"
      hidden={isHidden}
      onToggle={({ currentTarget }) => {
        setOpen(currentTarget.open);
        open(true);
      }}
    >
      <summary class="feed-function-name">
        <code class="feed-code">{entry.id}</code>
      </summary>
      {wasOpened && (
        <>
          <FunctionDescription entry={entry} />
          <FunctionForm entry={entry} reading={reading} target={isOpen ? target : undefined} />
        </>
      )}
    </details>
  );
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
  const { id, family } = entry;
  const text = [id, familyName(family), family, PURPOSES[id] ?? "", ...names]
    .join(" ")
    .toLowerCase()
    .replaceAll("_", " ");
  return wanted.every((word) => text.includes(word));
}
