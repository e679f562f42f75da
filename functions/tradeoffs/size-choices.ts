/** Sizes to choose between for one cable. A typed mass, price, diameter or rating is that of the size beside it, and of no other. */
import { InputError } from "../../src/quantities/errors.js";
import { headerParts } from "../../src/quantities/header-units.js";
import { type Cell, type CellTable, isBlank } from "../cells.js";
import { plainHeader } from "../reading/feed-columns.js";
import type { CellChange, TypedVariation } from "./varied-blocks.js";

/** Headers of a cable whose figure goes with its size. */
export const OF_SIZE = [
  "Core Ω/km at 20 °C",
  "Resistance",
  "Outer diameter",
  "Rated A",
  "Inductance",
  "Core spacing",
  "Mass",
  "Price per m",
] as const;

/** Two cables that agree in these differ by their size alone. */
const ALIKE_IN = ["Material", "Build", "Insulation", "Cores"] as const;

export interface OfferedSize {
  /** As it is typed: `4 mm²`, or a number of mm² of metal. */
  readonly size: string | number;
  /** By header without unit, in the unit of the header as it stands. */
  readonly figures?: Readonly<Partial<Record<(typeof OF_SIZE)[number], Cell>>>;
}

/**
 * At another size than its own the cable has the figures that are offered with it, else those of a cable of the feed
 * that is like it, else none: what is not known is worked out as for any cable, or is missed.
 * @throws {InputError} naming `variations` for a cable that is not there.
 */
export function sizeChoices(
  blocks: readonly CellTable[],
  cable: string,
  sizes: readonly OfferedSize[],
): TypedVariation {
  const [headers = [], ...rows] = blocks.find(([first]) => isText(first?.[0], "Cable")) ?? [];
  const placeOf = (header: string) =>
    headers.findIndex((one, at) => at > 0 && isText(headerName(one), header));
  const cellOf = (row: readonly Cell[], header: string) => row[placeOf(header)] ?? null;
  const own = rows.find(([name]) => isText(name, cable));
  if (!own) throw new InputError("variations", cable, "the name of a cable");
  const typed = OF_SIZE.filter((header) => placeOf(header) >= 0);
  const isSame = (one: Cell, other: Cell) =>
    isBlank(one) ? isBlank(other) : isText(other, String(one));
  return {
    name: `Size of ${cable}`,
    choices: sizes.map(({ size, figures = {} }) => {
      const like = [own, ...rows].find(
        (row) =>
          isText(cellOf(row, "Size"), String(size)) &&
          ALIKE_IN.every((header) => isSame(cellOf(own, header), cellOf(row, header))),
      );
      const change = (header: string, value: Cell): CellChange => ({
        block: "Cable",
        row: cable,
        header,
        value,
      });
      return {
        name: String(size),
        cells: [
          change("Size", size),
          ...typed.map((header) =>
            change(header, figures[header] ?? (like ? cellOf(like, header) : null)),
          ),
        ],
      };
    }),
  };
}

function headerName(cell: Cell): Cell {
  return typeof cell === "string" ? headerParts(cell).name : cell;
}

function isText(cell: Cell | undefined, text: string): boolean {
  return !isBlank(cell) && plainHeader(String(cell)) === plainHeader(text);
}
