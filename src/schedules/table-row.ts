/** One row of the feed table while it is made: its cells, where each comes from, and what its reader is to know. */
import type { FeedKind } from "../network/feed-item.js";
import { FEED_FIGURES } from "../network/feed-columns.js";
import type { Caveat, Quantities, Quantity, Steps } from "../quantities/steps.js";
import { type TableField } from "./columns.js";
import {
  type CellPlace,
  type Entered,
  figureOf,
  type ScheduleRow,
  wordOf,
} from "./schedule-row.js";

/** A figure that was typed; one of the given's unit is `perUnit` of the cell's. */
export interface TypedGiven {
  readonly place: CellPlace;
  readonly perUnit: number;
}

/** How a derived cell comes about. */
export interface RowWorking {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: Steps;
  readonly values: Readonly<Record<string, number | string>>;
  /** Where givens were typed. */
  readonly typed: Readonly<Record<string, TypedGiven>>;
}

export type CellOrigin =
  /** As typed; the table's figure is `toSi` of the cell's, both in SI. */
  | { readonly kind: "typed"; readonly entered: Entered }
  /** A step of one of the row's workings. */
  | { readonly kind: "step"; readonly working: number; readonly step: string };

export interface MadeCell {
  /** In SI, or a word. */
  readonly value: number | string;
  readonly origin: CellOrigin | undefined;
}

export interface MadeRow {
  readonly source: ScheduleRow;
  readonly kind: FeedKind | undefined;
  readonly fedFrom: string | undefined;
  readonly cells: ReadonlyMap<TableField, MadeCell>;
  /** Each made when it is asked for. */
  readonly workings: readonly (() => RowWorking)[];
  readonly notes: readonly string[];
  /** Why the row is not solved. */
  readonly refusal: Refusal | undefined;
}

export interface Refusal {
  readonly reason: string;
  /** The field of the row, or of its type, that is to be typed; undefined where something typed cannot be. */
  readonly waitsFor: string | undefined;
}

export class RowMaker {
  readonly cells = new Map<TableField, MadeCell>();
  readonly workings: (() => RowWorking)[] = [];
  readonly notes: string[] = [];

  constructor(readonly source: ScheduleRow) {}

  /** A word or figure as it stands in a row of a block, under the table's own name for it. */
  pass(field: TableField, from: string = field, row = this.source): void {
    const entered = row.entered.get(from);
    if (!entered) return;
    const { value } = entered;
    if (typeof value === "number" || typeof value === "string")
      this.cells.set(field, { value, origin: { kind: "typed", entered } });
  }

  passAll(fields: readonly TableField[], row = this.source): void {
    for (const field of fields) this.pass(field, field, row);
  }

  /** A value that neither stands in a cell nor is worked out: a kind, a default. */
  say(field: TableField, value: number | string): void {
    this.cells.set(field, { value, origin: undefined });
  }

  /** A figure that a working gives. */
  derive(field: TableField, value: number, working: number, step: string): void {
    this.cells.set(field, { value, origin: { kind: "step", working, step } });
  }

  /** @returns the working's place, for `derive`. */
  work(make: () => RowWorking): number {
    this.workings.push(make);
    return this.workings.length - 1;
  }

  note(text: string): void {
    if (!this.notes.includes(text)) this.notes.push(text);
  }

  noteAll(notes: readonly Caveat[]): void {
    for (const { text } of notes) this.note(text);
  }

  /** Some rows are refused after their figures were made: their numbers are void. */
  voidFigures(): void {
    for (const field of FEED_FIGURES) this.cells.delete(field);
  }
}

/** Givens of a working out of a row's own cells. */
export class Givens {
  readonly quantities: Record<string, Quantity> = {};
  readonly values: Record<string, number | string> = {};
  readonly typed: Record<string, TypedGiven> = {};

  /** A figure of a row; `instead` where it was left empty. */
  add(name: string, quantity: Quantity, row: ScheduleRow, field: string, instead?: number): this {
    const value = figureOf(row, field) ?? wordOf(row, field) ?? instead;
    if (value === undefined) return this;
    this.quantities[name] = quantity;
    this.values[name] = value;
    this.link(name, row, field);
    return this;
  }

  /** Where a given of one's own making was typed; one of it is `times` of the row's figure. */
  link(name: string, row: ScheduleRow, field: string, times = 1): this {
    const entered = row.entered.get(field);
    if (entered)
      this.typed[name] = {
        place: entered.place,
        perUnit: times / entered.toSi,
      };
    return this;
  }

  working(
    title: string,
    steps: Steps,
    results: Readonly<Record<string, number | string>>,
  ): RowWorking {
    return {
      title,
      givens: this.quantities,
      steps,
      values: { ...this.values, ...results },
      typed: this.typed,
    };
  }
}
