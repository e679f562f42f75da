/** Writes into a budget's own sheet that a warning is accepted, and takes it out again. */
import { rangeAddress, rangePlace } from "../../src/plans/addresses.js";
import type { FoundBudget, ReadRange } from "../budgets/reading/found-budget.js";
import { type Acceptance, acceptances, freeRow } from "../budgets/warnings/acceptances.js";
import { type CellRange, type CellWrite, type Host, HostError } from "../hosts/host.js";
import { words } from "../words/words.js";

const said = words.warnings;

export interface GivenReason {
  readonly reason: string;
  /** "" where nobody is named. */
  readonly by: string;
}

/** A warning or one item of it, as it is found now. */
export interface Acceptable {
  readonly id: string;
  readonly line: string;
}

/** @throws {HostError} where the budget has no place for it. */
export async function accept(
  host: Host,
  budget: FoundBudget,
  { id, line }: Acceptable,
  { reason, by }: GivenReason,
): Promise<void> {
  const range = await acceptedRange(host, budget);
  const own = acceptances(range).find((one) => one.id === id)?.row;
  const row = own ?? freeRow(range);
  if (row === undefined) throw new HostError(said.acceptedFull(range.sheet));
  const accepted = said.acceptedBy(by, new Date());
  await host.write(rowOf(range, row), [[id, accepted, plainText(reason), plainText(line)]], {
    overwrite: true,
  });
}

export async function withdraw(host: Host, budget: FoundBudget, { id }: Acceptance): Promise<void> {
  const range = await acceptedRange(host, budget);
  const own = acceptances(range).find((one) => one.id === id);
  if (own)
    await host.write(rowOf(range, own.row), [["", "", "", ""]], {
      overwrite: true,
    });
}

/** As it is now: something may have been written since the warnings were read. */
async function acceptedRange(host: Host, { ranges, stem }: FoundBudget): Promise<ReadRange> {
  const known = ranges["Accepted"];
  if (!known) throw new HostError(said.noPlaceForAcceptance(stem));
  const [content] = await host.read([known]);
  return { ...known, values: content?.values ?? known.values };
}

function rowOf({ sheet, address }: ReadRange, row: number): CellRange {
  const { left, top, right } = rangePlace(address);
  return {
    sheet,
    address: rangeAddress({
      left,
      top: top + row,
      right,
      bottom: top + row,
    }),
  };
}

/** Text stays text, whatever it begins with. */
export function plainText<Content extends CellWrite>(content: Content): Content | string {
  return typeof content === "string" && /^[=+\-@]/.test(content) ? ` ${content}` : content;
}
