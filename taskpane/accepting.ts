/** Writes into a budget's own sheet that a warning is accepted, and takes it out again. */
import {
  type Acceptance,
  acceptances,
  findingLine,
  freeRow,
} from "../src/warnings/acceptances.js";
import { areaAddress, areaPlace } from "../src/plans/addresses.js";
import type {
  FoundBudget,
  ReadArea,
  Warning,
} from "../src/warnings/warning.js";
import { type Area, type Host, HostError } from "./hosts/host.js";
import { words } from "./views/words.js";

const said = words.warnings;

export interface GivenReason {
  readonly reason: string;
  /** "" where nobody is named. */
  readonly by: string;
}

/** @throws {HostError} where the budget has no place for it. */
export async function accept(
  host: Host,
  budget: FoundBudget,
  warnings: readonly Warning[],
  { reason, by }: GivenReason,
): Promise<void> {
  const area = await acceptedArea(host, budget);
  const known = acceptances(area);
  const taken: number[] = [];
  const rows = warnings.map((warning) => {
    const own = known.find(({ id }) => id === warning.id)?.row;
    const row = own ?? freeRow(area, taken);
    if (row === undefined) throw new HostError(said.acceptedFull(area.sheet));
    taken.push(row);
    return { row, warning };
  });
  const accepted = said.acceptedBy(by, new Date());
  for (const { row, warning } of rows)
    await host.write(
      rowOf(area, row),
      [[warning.id, accepted, plain(reason), findingLine(warning)]],
      { overwrite: true },
    );
}

export async function withdraw(
  host: Host,
  budget: FoundBudget,
  { id }: Acceptance,
): Promise<void> {
  const area = await acceptedArea(host, budget);
  const own = acceptances(area).find((one) => one.id === id);
  if (own)
    await host.write(rowOf(area, own.row), [["", "", "", ""]], {
      overwrite: true,
    });
}

/** As it is now: something may have been written since the warnings were read. */
async function acceptedArea(
  host: Host,
  { areas, stem }: FoundBudget,
): Promise<ReadArea> {
  const known = areas["Accepted"];
  if (!known) throw new HostError(said.noPlaceForAcceptance(stem));
  const [content] = await host.read([known]);
  return { ...known, values: content?.values ?? known.values };
}

function rowOf({ sheet, address }: ReadArea, row: number): Area {
  const { left, top, right } = areaPlace(address);
  return {
    sheet,
    address: areaAddress({
      left,
      top: top + row,
      right,
      bottom: top + row,
    }),
  };
}

/** A reason is text, whatever it begins with. */
function plain(reason: string): string {
  return /^[=+\-@]/.test(reason) ? ` ${reason}` : reason;
}
