/** A feed in memory, solved, as the pictures read it from a sheet. */
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import type { SolvedItem } from "../../taskpane/pictures/solved-feed.js";

/** Nothing where a row of it is refused. */
export function solvedItems(items: readonly FeedItem[]): readonly SolvedItem[] | undefined {
  const { rows } = operatingPoint(items);
  const solved = rows.flatMap((row): SolvedItem[] =>
    row.outcome === "refused"
      ? []
      : [
          {
            item: row.item.item,
            fedFrom: row.item.fedFrom ?? "",
            kind: row.item.kind,
            inputVoltage: row.inputVoltage,
            outputVoltage: row.output?.voltage,
            inputPower: row.inputPower,
            loss: row.loss,
            lowestVoltage: row.item.lowestVoltage,
            highestVoltage: row.item.highestVoltage,
            ratedCurrent: row.item.ratedCurrent,
          },
        ],
  );
  return solved.length === items.length ? solved : undefined;
}
