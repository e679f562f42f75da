/** A cell without a function: its formula as far as it is taken, and the cells that count in it, each with the way to it. */
import { rangeText } from "../../formula-reading/argument-text.js";
import type { CellOrigin, NamedSource } from "../../formula-reading/cell-origin.js";
import type { HostValue } from "../../hosts/host.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";
import { GoTo } from "../parts/button.js";
import { Code } from "../parts/code.js";

const said = words.working;

/** Cells that are shown without being asked for. */
const FEW_CELLS = 20;

export function OriginSection({ origin }: { readonly origin: CellOrigin }) {
  const { at, value, taken, parts, unread } = origin;
  return (
    <section class="feed-working">
      <h3 class="feed-group-heading">{said.comesFrom(rangeText(at))}</h3>
      <p>
        <Code text={`= ${taken}`} />
      </p>
      <p class="feed-result">{said.gives(textOf(value))}</p>
      {unread !== undefined && <p class="feed-refused">{said.unread(unread)}</p>}
      {parts.map(({ way, text, cells }) => (
        <details class="feed-block" key={`${way} ${text}`} open={cells.length <= FEW_CELLS}>
          <summary>{said.way[way]}</summary>
          {cells.length === 0 ? (
            <p class="feed-quiet">{said.noCells}</p>
          ) : (
            <ol class="feed-steps">
              {cells.map((one, index) => (
                <SourceRow key={index} source={one} />
              ))}
            </ol>
          )}
        </details>
      ))}
    </section>
  );
}

function SourceRow({ source: { cell, name, value } }: { readonly source: NamedSource }) {
  return (
    <li class="feed-step">
      <span class="feed-step-label">{name}</span>
      <span class="feed-step-value">
        <b>{textOf(value)}</b>
      </span>
      <GoTo class="feed-link" to={cell}>
        {said.goTo(rangeText(cell))}
      </GoTo>
    </li>
  );
}

/** The unit stands in the heading. */
function textOf(value: HostValue): string {
  if (typeof value === "number") return shownNumber(value, "").text;
  return typeof value === "object" ? value.error : String(value);
}
