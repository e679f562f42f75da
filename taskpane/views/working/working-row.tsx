/** One line of a working: what it is, how it comes about in symbols and in numbers, its value and where it is from. */
import type { WorkingRow as Row } from "../../../functions/working/text/working-of.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";
import { GoTo } from "../parts/button.js";

const said = words.working;

export function WorkingRow({ row }: { readonly row: Row }) {
  const { kind, label, symbol, inSymbols, inNumbers, citation, caveats } = row;
  const isSolved = kind === "solved";
  return (
    <li class={`feed-step feed-step-${kind}`}>
      <span class="feed-step-label">{label}</span>
      <span class="feed-step-value">
        {symbol !== "" && `${symbol} = `}
        <Value {...row} />
      </span>
      {inSymbols !== "" && (
        <span class="feed-step-formula">
          {isSolved ? said.satisfies(inSymbols) : `${symbol} = ${inSymbols}`}
        </span>
      )}
      {inNumbers !== "" && (
        <span class="feed-step-formula">
          {isSolved ? said.leaves(inNumbers, String(row.residual ?? 0)) : `= ${inNumbers}`}
        </span>
      )}
      <Origins {...row} />
      {citation !== "" && <span class="feed-step-citation">{citation}</span>}
      {caveats.map((note) => (
        <span class="feed-note" key={note}>
          {words.answer.note(note)}
        </span>
      ))}
    </li>
  );
}

function Value({ value, unit }: Row) {
  if (typeof value === "string") return <b>{value}</b>;
  const { text, full } = shownNumber(value, unit);
  return <b title={full}>{text}</b>;
}

/** A given leads to the cells that count in it. */
function Origins({ cells, origin }: Row) {
  if (cells.length === 0)
    return origin === "" ? null : (
      <span class="feed-step-citation">{origin === "default" ? said.byDefault : origin}</span>
    );
  return (
    <>
      {cells.map((cell) => (
        <GoTo class="feed-link" key={rangeText(cell)} to={cell}>
          {said.goTo(rangeText(cell))}
        </GoTo>
      ))}
    </>
  );
}
