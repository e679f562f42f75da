/** Looks for Downfeed formulas that do not calculate, says why, and writes them anew when asked to. */
import { useRef, useState } from "preact/hooks";
import { rangeText } from "../../formula-reading/argument-text.js";
import { type BrokenCell, brokenCells, repairCells } from "../../workbook/repair.js";
import { words } from "../../words/words.js";
import { Button, GoTo } from "../parts/button.js";
import { Code } from "../parts/code.js";
import { useTools } from "../parts/tools.js";

const said = words.repair;

export function RepairSection() {
  const { host, failed } = useTools();
  const [cells, show] = useState<readonly BrokenCell[]>([]);
  const [outcome, say] = useState("");
  const lookButton = useRef<HTMLButtonElement>(null);

  async function look(before = ""): Promise<void> {
    say(said.looking);
    const found = await brokenCells(host);
    show(found);
    const told =
      found.length === 0 ? said.none : said.found(found.length, found.filter(isMendable).length);
    say(`${before}${told}`);
  }

  async function repair(): Promise<void> {
    const { written, left } = await repairCells(host, cells);
    const told = left.map(({ sheet, cells: kept, why }) => said.leftAsIs(sheet, kept, why));
    await look([said.repaired(written), ...told, ""].join(" "));
    lookButton.current?.focus();
  }

  return (
    <section class="feed-group">
      <h3 class="feed-group-heading">{said.title}</h3>
      <p class="feed-quiet">{said.about}</p>
      <div class="feed-actions">
        <button
          type="button"
          class="feed-button"
          ref={lookButton}
          onClick={() => void look().catch(failed)}
        >
          {said.look}
        </button>
        {cells.some(isMendable) && (
          <Button press={() => void repair().catch(failed)}>{said.repair}</Button>
        )}
      </div>
      <p class="feed-outcome" role="status">
        {outcome}
      </p>
      <ul class="feed-findings">
        {cells.map(({ at, formula, why }) => (
          <li key={rangeText(at)}>
            <GoTo class="feed-link" to={at}>
              {rangeText(at)}
            </GoTo>
            <p>
              <Code text={formula} />
            </p>
            <p class="feed-quiet">{why}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function isMendable({ repaired }: BrokenCell): boolean {
  return repaired !== undefined;
}
