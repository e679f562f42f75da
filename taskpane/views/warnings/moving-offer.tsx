/** The offer to move budgets that 0.2 made into schedules, and what came of it. */
import { useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { type Moved, moveBudget } from "../../workbook/moving.js";
import { words } from "../../words/words.js";
import { Button, GoTo } from "../parts/button.js";
import { useTools } from "../parts/tools.js";

const said = words.moving;

export function MovingOffer({ old }: { readonly old: readonly FoundBudget[] }) {
  const { host, failed } = useTools();
  const [status, say] = useState("");
  const [moved, show] = useState<Moved>();
  const move = async (budget: FoundBudget) => {
    show(undefined);
    say(said.moving(budget.stem));
    try {
      show(await moveBudget(host, budget));
    } catch (error) {
      failed(error);
    } finally {
      say("");
    }
  };
  return (
    <section class="feed-moving" hidden={old.length === 0}>
      <p class="feed-quiet">{old.length > 0 && said.old(old.map(({ stem }) => stem))}</p>
      <div class="feed-actions">
        {old.map((budget) => (
          <Button key={budget.stem} press={() => void move(budget)}>
            {said.move(budget.stem)}
          </Button>
        ))}
      </div>
      <div class="feed-outcome" role="status">
        {status}
        {moved && (
          <>
            <p>{said.moved(moved.title, moved.sheet)}</p>
            <GoTo to={{ sheet: moved.sheet, address: "A1" }}>{said.goTo(moved.sheet)}</GoTo>
            {moved.lost.length > 0 && (
              <>
                <p>{said.lost(moved.lost.length)}</p>
                <ul>
                  {moved.lost.map((line, index) => (
                    <li key={index}>{line}</li>
                  ))}
                </ul>
              </>
            )}
          </>
        )}
      </div>
    </section>
  );
}
