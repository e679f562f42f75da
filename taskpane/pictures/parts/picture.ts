/** What a picture is: words, a drawing for any width and palette, and the very numbers that are drawn. */
import type { ReadValue } from "../../budgets/reading/found-budget.js";
import type { Palette } from "./palettes.js";
import type { SvgPart } from "./svg-parts.js";

export interface Picture {
  readonly title: string;
  /** Alternative text: the finding in words, with its numbers. */
  readonly alternative: string;
  readonly draw: (surface: Surface) => Drawing;
  readonly table: PictureTable;
  /** The loads in words, where they are not those of the sheet. */
  readonly solvedFor?: string;
  /** The chart that a spreadsheet draws from the table, where it has one of this kind. */
  readonly chart?: PictureChart;
}

export interface Surface {
  readonly width: number;
  readonly palette: Palette;
  /** In front of every id in the drawing, so that two drawings on one page do not share any. */
  readonly stem: string;
}

export interface Drawing {
  readonly height: number;
  readonly parts: readonly SvgPart[];
}

export interface PictureTable {
  readonly columns: readonly PictureColumn[];
  readonly rows: readonly (readonly PictureCell[])[];
}

/** "" where there is nothing to tell. */
export type PictureCell = Extract<ReadValue, string | number>;

export interface PictureColumn {
  readonly heading: string;
  /** Number format as a spreadsheet writes it; not there for words. */
  readonly format?: string;
}

export interface PictureChart {
  readonly kind: "line" | "column" | "scatter";
  readonly categoryTitle: string;
  readonly valueTitle: string;
  /** Equal factors are equal distances. */
  readonly logarithmic?: true;
  /** How the columns behind the first are drawn, in their order. */
  readonly series: readonly ("line" | "points" | "bars")[];
}

/** One of several alike, or the only one. */
export interface PictureVariant {
  readonly name: string;
  readonly picture: Picture;
}

export interface PictureOffer {
  readonly id:
    | "diagram"
    | "watts"
    | "voltage"
    | "sweep"
    | "tornado"
    | "spread"
    | "comparison"
    | "share"
    | "worst"
    | "efficiency";
  readonly variants: readonly PictureVariant[];
  /** Why there is none where a user may look for one, as a sentence. */
  readonly missing?: string;
}

export interface OfferedPictures {
  /** Which loads and supply voltage the sheet is solved for, in words. */
  readonly solvedFor: string;
  /** None where the feed is not solved. */
  readonly offers: readonly PictureOffer[];
  /** Why others are not among them, each as a sentence. */
  readonly missing: readonly string[];
}
