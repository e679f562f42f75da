/** Where a check looks: one row of a tree, its figures and what is missing of them. */
import type { ConductorChoice } from "../conductors/conductor-build.js";
import { type FeedFigure, FEED_FIGURES, figureAt, kindAt } from "../network/feed-columns.js";
import type { FeedKind } from "../network/feed-item.js";
import { KINDS, type RowKind } from "../network/row-kinds.js";
import {
  type BlockColumn,
  type BlockName,
  BLOCKS,
  type Column,
  coresPerPole,
  HEAT_BALANCE,
  headerText,
  TABLE_COLUMNS,
  type TableField,
} from "../schedules/columns.js";
import { headerParts } from "../quantities/header-units.js";
import { conductorOf, coresOf } from "./loaded-cable.js";
import type { DetailFigure, DetailWord, ItemDetails } from "./judged-feed.js";
import type { TreeContext } from "./tree-context.js";
import { type FigureLabel, type Label, type NoLimit } from "./requirements.js";

/** A check lacks figures of an item. Thrown where a finding needs them, told in the check's row. */
export class MissingFigure extends Error {
  override readonly name = "MissingFigure";

  constructor(
    readonly place: Place,
    readonly fields: readonly TableField[],
    /** A whole sentence instead of `enter …`. */
    readonly advice?: string,
  ) {
    super(advice ?? `enter ${fields.join(", ")}`);
  }
}

/** Nothing is asked for, or not yet. */
export class MissingRequirement extends Error {
  override readonly name = "MissingRequirement";

  constructor(
    readonly label: Label,
    readonly why: NoLimit,
    readonly advice?: string,
  ) {
    super(`${label}: ${why}`);
  }
}

const ENGINE_FIGURES: ReadonlySet<string> = new Set(FEED_FIGURES);

export class Place {
  constructor(
    readonly tree: TreeContext,
    readonly row: number,
  ) {}

  at(row: number): Place {
    return new Place(this.tree, row);
  }

  get name(): string {
    return this.tree.feed.columns.item[this.row]!;
  }

  get kindName(): FeedKind {
    return kindAt(this.tree.feed.columns, this.row)!;
  }

  get kind(): RowKind {
    return KINDS[this.tree.feed.columns.kind[this.row]!]!;
  }

  /** Undefined of a row whose kind could not be read. */
  private get readKind(): RowKind | undefined {
    return KINDS[this.tree.feed.columns.kind[this.row]!];
  }

  get isCable(): boolean {
    const { readKind } = this;
    return (
      readKind?.builtOf === "conductors" ||
      (readKind?.fedBy === "two ends" && this.word("block") === "Cable")
    );
  }

  /** No cell holds its rating: it is as much as its heat balance bears. */
  get isRatedByHeat(): boolean {
    return this.word("ratedBy") === HEAT_BALANCE;
  }

  get details(): ItemDetails {
    return this.tree.feed.details[this.row]!;
  }

  get inParallel(): number {
    return this.figure("inParallel")!;
  }

  /** Supply or stage in whose level it stands; itself of a supply. */
  get source(): Place {
    const from = this.tree.source[this.row]!;
    return from < 0 ? this : this.at(from);
  }

  figure(field: FeedFigure | DetailFigure): number | undefined {
    return ENGINE_FIGURES.has(field)
      ? figureAt(this.tree.feed.columns, this.row, field as FeedFigure)
      : this.details.figures[field as DetailFigure];
  }

  /** @throws {MissingFigure} */
  need(field: FeedFigure | DetailFigure): number {
    const value = this.figure(field);
    if (value === undefined) throw new MissingFigure(this, [field]);
    return value;
  }

  word(field: DetailWord): string | undefined {
    return this.details.words[field];
  }

  /** The figure of one unit times the units in parallel. @throws {MissingFigure} */
  needOfAll(field: FeedFigure | DetailFigure): number {
    return this.need(field) * this.inParallel;
  }

  /** Hot with worn contacts, all units side by side; 0 where none is given. */
  get hotResistance(): number {
    return this.resistanceIn(this.tree.hot.columns.figures.resistance);
  }

  /** Cold with new contacts. */
  get coldResistance(): number {
    const { hot, cold } = this.tree;
    return this.resistanceIn((cold ?? hot).columns.figures.resistance);
  }

  private resistanceIn(resistance: Float64Array): number {
    return (resistance[this.row]! || 0) / this.inParallel;
  }

  /** Current-carrying cores of one cable, out and back together. */
  get cores(): number {
    return coresOf(this.details);
  }

  get coresPerPole(): number {
    return coresPerPole(this.cores);
  }

  get isFuse(): boolean {
    const kind = this.word("inLineKind");
    if (kind !== undefined) return kind === "fuse" || kind === "breaker";
    return (
      this.kind.builtOf === "contacts" &&
      (this.figure("clearsAt") ?? this.figure("breaksAt")) !== undefined
    );
  }

  /** @throws {MissingRequirement} */
  asked(label: FigureLabel): number {
    const value = this.tree.requirements.figure(label);
    if (typeof value !== "number") throw new MissingRequirement(label, value);
    return value;
  }

  /** @throws {MissingFigure} for a cable that is given by its ohms alone. */
  get conductor(): ConductorChoice {
    const conductor = conductorOf(this.details);
    if (!conductor) throw new MissingFigure(this, ["size"]);
    return conductor;
  }

  /** Where a figure is typed: in the schedule that the row comes from, or in the feed table itself. */
  column(field: string): Column | undefined {
    return this.typedInBlock(field)?.column ?? TABLE_COLUMNS.find((one) => one.field === field);
  }

  header(field: string): string {
    const column = this.column(field);
    return column ? headerText(column) : "";
  }

  /** Whose figure it is said to be: of a location where it is typed there. */
  holderOf(field: string): string {
    const isOfLocation = this.typedInBlock(field)?.block === "Location";
    return (isOfLocation && this.word("locations")) || this.name;
  }

  /** As asked for; in words where none is. */
  get currency(): string {
    const currency = this.tree.requirements.get("Currency");
    return typeof currency === "string" ? currency : "in price";
  }

  /** Rows of the tree that have the figure from the same cell: of one location, or of one type of stage. */
  rowsWithSame(field: string): readonly number[] {
    const block = this.typedInBlock(field)?.block;
    const shared = block === "Location" ? "locations" : block === "Stage type" ? "type" : undefined;
    const name = shared && this.word(shared);
    if (shared === undefined || name === undefined) return [this.row];
    return this.tree.once(`rows with ${shared} ${name}`, () =>
      [...this.tree.source.keys()].filter((row) => this.at(row).word(shared) === name),
    );
  }

  /** The same as people say it: without its unit, which only tells temperatures apart. */
  said(field: string): string {
    const header = this.header(field);
    const { name, unit } = headerParts(header);
    return unit === "°C" ? header : name;
  }

  /** Undefined of a row that was typed into the feed table itself. */
  private typedInBlock(field: string): TypedColumn | undefined {
    if (this.word("block") === undefined) return undefined;
    const { isCable } = this;
    const typed = (isCable ? CABLE_TYPED_AS[field] : undefined) ?? TYPED_AS[field] ?? field;
    return TYPED_COLUMNS[isCable ? "cable" : (this.readKind?.role ?? "line")].get(typed);
  }
}

/** Fields of the feed table that are worked out of others in the schedules. */
const TYPED_AS: Readonly<Record<string, string>> = {
  ratio: "stepsDownBy",
  lightLoad: "light",
  load: "nominal",
  peakLoad: "peak",
  inductance: "inductancePerMetre",
};

const CABLE_TYPED_AS: Readonly<Record<string, string>> = {
  inParallel: "cables",
  leastResistance: "coldestC",
  mass: "massPerMetre",
  price: "pricePerMetre",
};

interface TypedColumn {
  readonly block: BlockName;
  readonly column: BlockColumn;
}

/** By the field that is typed: in which block's column, of those that a row takes its figures from, the first one. */
const TYPED_COLUMNS = {
  cable: typedColumns("Cable"),
  supply: typedColumns("Supply"),
  line: typedColumns("In line"),
  stage: typedColumns("Stage", "Stage type"),
  load: typedColumns("Load"),
} as const;

function typedColumns(...own: readonly BlockName[]): ReadonlyMap<string, TypedColumn> {
  const columns = [...own, "Location" as const].flatMap((block) =>
    BLOCKS[block].map((column): TypedColumn => ({ block, column })),
  );
  // Of two with one field the first stays.
  return new Map(columns.reverse().map((one) => [one.column.field, one]));
}
