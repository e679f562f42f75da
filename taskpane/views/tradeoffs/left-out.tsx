/** Choices that are on no option of the front, each with what became of its combinations. */
import { isWhole } from "../../../src/tradeoffs/search-rounds.js";
import { choicesAt, indexOf } from "../../../src/tradeoffs/varied-feed.js";
import { tradeWords as said } from "../../words/trade-words.js";
import { Button } from "../parts/button.js";
import type { ResultProps } from "./result-props.js";

/** The checks that stop most; the combinations themselves tell the others. */
const MOST_STOPS = 3;

export function LeftOut({ job, result, chosen, choose }: ResultProps) {
  const { variations } = job;
  if (result.leftOut.length === 0) return null;
  return (
    <section aria-label={said.leftOut}>
      <h3 class="feed-group-heading">{said.leftOut}</h3>
      <p class="feed-quiet">
        {isWhole(result.extent) ? said.leftOutAbout : said.leftOutAboutAmong}
      </p>
      <ul class="feed-left-out">
        {result.leftOut.map(({ variation, choice, beaten, stops }) => {
          const { name, choices } = variations[variation]!;
          const reasons = [
            ...(beaten > 0 ? [said.leftOutBeaten(beaten)] : []),
            ...stops
              .slice(0, MOST_STOPS)
              .map(({ count, item, check }) => said.leftOutStopped(count, item, check)),
          ];
          return (
            <li key={`${variation} ${choice}`}>
              <strong>{`${name}, ${choices[choice]!.name}`}</strong>:{" "}
              {reasons.join("; ") || said.leftOutUnjudged}.{" "}
              <Button
                class="feed-link"
                press={() =>
                  choose(
                    indexOf(
                      { variations },
                      choicesAt({ variations }, chosen).map((own, at) =>
                        at === variation ? choice : own,
                      ),
                    ),
                  )
                }
              >
                {said.whyNot(choices[choice]!.name)}
              </Button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
