/** The rows of a list as rows of a block, with what is left out and why, and how much of the list that is. */
import { type BlockColumn, headerText } from "../../../src/schedules/columns.js";
import { sameItem } from "../../budgets/reading/range-table.js";
import { listWords as said } from "../../words/list-words.js";
import { freshName, type RowCells } from "../feed-edits.js";
import { type CellAnswer, listCell } from "./list-cells.js";
import { isUnitRow, type ListColumn, type ListHead, type ListTable } from "./list-columns.js";
import type { DecimalSign } from "./list-figures.js";
import {
  columnOfRole,
  LEFT_OUT,
  type ListBlock,
  loadKindOf,
  OF_ALL,
  OWN,
  unitOfHeader,
  wordedRole,
} from "./list-words.js";

export interface ListRow {
  /** In the pasted text, from 1. */
  readonly line: number;
  readonly name: string;
  /** By header without unit; figures as the sheet's header has them. */
  readonly cells: RowCells;
  /** Cells of the user's own columns, by their header with `# `. */
  readonly own: Readonly<Record<string, string>>;
  readonly remarks: readonly string[];
  /** Watts, amperes or metres of all that the row counts. */
  readonly amount: number;
}

export interface LeftOut {
  readonly line: number;
  readonly text: string;
  readonly why: string;
}

/** What the list adds up to, and what of it is taken. */
export interface ListSum {
  readonly unit: "W" | "A" | "m";
  readonly inList: number;
  readonly taken: number;
  /** The total that the list itself states last. */
  readonly stated: number | undefined;
}

export interface ReadRows {
  readonly rows: readonly ListRow[];
  readonly leftOut: readonly LeftOut[];
  /** What has to be chosen before rows can be written: units by the list's header, and the decimal sign. */
  readonly open: { readonly units: readonly string[]; readonly sign: boolean };
  readonly sum: ListSum | undefined;
  /** Columns that are carried, with what they say of how many rows where that might be taken to count. */
  readonly carried: readonly { readonly header: string; readonly says: string }[];
}

export interface ListReadingOptions {
  readonly table: ListTable;
  readonly block: ListBlock;
  readonly head: ListHead;
  readonly sign: DecimalSign | undefined;
  /** A column as the sheet heads it. */
  readonly column: (header: string) => BlockColumn;
  /** Names of Location. */
  readonly locations: readonly string[];
}

/** Rows below a title become this column, where no location is called so. */
const SECTION = `${OWN} Section`;
const TOTAL =
  /^(grand |sub-? ?|section |overall )?(totals?|sum|summe)\b|^(carried|brought) (forward|over)/i;
const PAGE = /^(page|sheet) \d+|^(prepared|checked|approved|issued) by\b|^rev(ision)?\b/i;
/** Within what the totals of a list are rounded. */
const ROUNDED = 0.005;

export function readRows(options: ListReadingOptions): ReadRows {
  return new ListReader(options).read();
}

class ListReader {
  private readonly rows: ListRow[] = [];
  private readonly leftOut: LeftOut[] = [];
  private readonly openUnits = new Set<string>();
  private isSignOpen = false;
  private inList = 0;
  private sinceTotal = 0;
  private rowsSinceTotal = 0;
  private stated: number | undefined;
  private section = "";

  constructor(private readonly options: ListReadingOptions) {}

  read(): ReadRows {
    const { table, head } = this.options;
    table.slice(head.row + 1).forEach((cells, index) => this.line(cells, head.row + 2 + index));
    const unit = this.unit();
    return {
      rows: this.rows,
      leftOut: this.leftOut,
      open: { units: [...this.openUnits], sign: this.isSignOpen },
      sum: unit && {
        unit,
        inList: tidy(this.inList),
        taken: tidy(this.rows.reduce((sum, { amount }) => sum + amount, 0)),
        stated: this.stated,
      },
      carried: this.carried(unit ?? ""),
    };
  }

  private line(cells: readonly string[], line: number): void {
    const filled = cells.filter((cell) => cell !== "");
    if (filled.length === 0) return;
    const leave = (why: string) => this.leftOut.push({ line, text: filled.join(" · "), why });
    const header = this.options.table[this.options.head.row] ?? [];
    if (filled.every((cell) => header.some((one) => sameItem(one, cell)))) {
      if (filled.length > 1) leave(said.headAgain);
      else this.title(filled[0]!, leave);
      return;
    }
    if (isUnitRow(cells)) {
      if (line > this.options.head.row + 2) leave(said.unitsAgain);
      return;
    }
    const amount = this.amountOf(cells);
    if (this.isTotal(cells, amount)) {
      const figure = amount ?? this.totalOf(cells);
      leave(said.total);
      if (figure !== undefined) this.stated = figure;
      this.sinceTotal = 0;
      this.rowsSinceTotal = 0;
      return;
    }
    if (filled.length === 1 && !/^\d+$/.test(filled[0]!)) {
      if (PAGE.test(filled[0]!)) leave(said.page);
      else this.title(filled[0]!, leave);
      return;
    }
    this.inList += amount ?? 0;
    this.sinceTotal += amount ?? 0;
    this.rowsSinceTotal += 1;
    this.row(cells, line, leave);
  }

  private title(text: string, leave: (why: string) => void): void {
    this.section = text.replace(/:$/, "");
    leave(said.section);
  }

  private row(cells: readonly string[], line: number, leave: (why: string) => void): void {
    const { block, locations } = this.options;
    const name = this.textOf(cells, block);
    if (name === "") return void leave(said.nameless);
    const row: Record<string, number | string> = {};
    const own: Record<string, string> = {};
    const remarks: string[] = [];
    let quantity = 1;
    let each: number | undefined;
    for (const column of this.options.head.columns) {
      const text = cells[column.at] ?? "";
      const { role } = column;
      if (role === block || role === LEFT_OUT || text === "") continue;
      if (role === OWN) {
        own[`${OWN} ${column.header}`] = text;
        continue;
      }
      const answer = this.cell(column, text);
      if (answer.is === "open" || answer.is === "empty") continue;
      if (answer.is === "refused") {
        // Without how many there are, none of its figures is right.
        if (role === "Quantity") return void leave(answer.why);
        remarks.push(`${role.replace(OF_ALL, "")}: ${answer.why}`);
        continue;
      }
      if (role === "Quantity") quantity = Number(answer.content);
      if (role === "Length") each = answer.value;
      if (answer.remark !== undefined) remarks.push(answer.remark);
      if (answer.cores !== undefined) row["Cores"] ??= answer.cores;
      if (role === "Nominal" || role === `Nominal${OF_ALL}`) each = answer.value;
      row[role] = answer.content;
    }
    const all = row[`Nominal${OF_ALL}`];
    if (typeof all === "number") {
      delete row[`Nominal${OF_ALL}`];
      row["Nominal"] = all / quantity;
      each = (each ?? 0) / quantity;
    }
    this.place(row, own, locations);
    if (block === "Load") row["Kind"] = loadKindOf(this.nominal()?.unit ?? "W");
    const total = this.totalOf(cells);
    const amount = (each ?? 0) * (block === "Load" ? quantity : 1);
    if (total !== undefined && each !== undefined && !isNear(total, amount))
      remarks.push(said.notItsTotal(quantity, each, total, this.unit() ?? ""));
    const taken = this.rows.map((one) => one.name);
    const isTwice = taken.some((one) => sameItem(one, name));
    const called = isTwice ? freshName(name, taken) : name;
    if (isTwice) remarks.push(said.twice(name, called));
    this.rows.push({
      line,
      name: called,
      cells: { [block]: called, ...row },
      own,
      remarks,
      amount,
    });
  }

  /** A title that a location bears is where the rows below it are. */
  private place(
    row: Record<string, number | string>,
    own: Record<string, string>,
    locations: readonly string[],
  ): void {
    if (this.section === "") return;
    const location = locations.find((one) => sameItem(one, this.section));
    if (location === undefined) own[SECTION] = this.section;
    else row["Location"] ??= location;
  }

  private cell(column: ListColumn, text: string): CellAnswer {
    const { sign, column: asHeaded } = this.options;
    const { unit } = column;
    const answer = listCell(asHeaded(column.role.replace(OF_ALL, "")), { text, unit, sign });
    if (answer.is === "open") {
      if (answer.ask === "unit") this.openUnits.add(column.header);
      else this.isSignOpen = true;
    }
    return answer;
  }

  /** A row that adds up those above it: it says so, or it has no name and their sum. */
  private isTotal(cells: readonly string[], amount: number | undefined): boolean {
    const figure = amount ?? this.totalOf(cells);
    const name = this.textOf(cells, this.options.block);
    const isSum =
      figure !== undefined &&
      this.rowsSinceTotal > 1 &&
      (isNear(figure, this.sinceTotal) || isNear(figure, this.inList));
    if (cells.some((cell) => TOTAL.test(cell)))
      return isSum || name === "" || !this.isLikeOthers(cells);
    return name === "" && isSum;
  }

  /** Whether it has what an item has beside its figure: how many there are, or what feeds it. */
  private isLikeOthers(cells: readonly string[]): boolean {
    return this.textOf(cells, "Quantity") !== "" || this.textOf(cells, "Fed from") !== "";
  }

  private textOf(cells: readonly string[], role: string): string {
    const column = this.options.head.columns.find((one) => one.role === role);
    return column ? (cells[column.at] ?? "") : "";
  }

  private nominal(): ListColumn | undefined {
    return this.options.head.columns.find(({ role }) => role.replace(OF_ALL, "") === "Nominal");
  }

  private unit(): ListSum["unit"] | undefined {
    if (this.options.block === "Cable")
      return this.options.head.columns.some(({ role }) => role === "Length") ? "m" : undefined;
    const nominal = this.nominal();
    if (!nominal || nominal.unit === "") return undefined;
    const kind = loadKindOf(nominal.unit);
    return kind === "power" ? "W" : kind === "current" ? "A" : undefined;
  }

  /** What the row says itself, whether or not it is taken. */
  private amountOf(cells: readonly string[]): number | undefined {
    const { block, head } = this.options;
    const main =
      block === "Cable" ? head.columns.find(({ role }) => role === "Length") : this.nominal();
    const answer = main && this.cell(main, cells[main.at] ?? "");
    if (answer?.is !== "taken" || answer.value === undefined) return undefined;
    const many = head.columns.find(({ role }) => role === "Quantity");
    if (!many || block === "Cable" || main?.role.endsWith(OF_ALL)) return answer.value;
    const count = this.cell(many, cells[many.at] ?? "");
    return count.is === "taken" ? answer.value * Number(count.content) : answer.value;
  }

  /** Total that the row states in a carried column, for all that the row counts. */
  private totalOf(cells: readonly string[]): number | undefined {
    const { block, head } = this.options;
    const nominal = this.nominal();
    if (block !== "Load" || !nominal || nominal.role.endsWith(OF_ALL)) return undefined;
    const column = head.columns.find(
      ({ role, header }) =>
        role === OWN && wordedRole(block, header, unitOfHeader(header)) === `Nominal${OF_ALL}`,
    );
    if (!column) return undefined;
    const unit = unitOfHeader(column.header) || nominal.unit;
    const answer = this.cell({ ...column, role: "Nominal", unit }, cells[column.at] ?? "");
    return answer.is === "taken" ? answer.value : undefined;
  }

  private carried(unit: string): ReadRows["carried"] {
    const headers = [...new Set(this.rows.flatMap(({ own }) => Object.keys(own)))];
    return headers.map((header) => {
      if (!MIGHT_COUNT.test(header)) return { header, says: "" };
      const values = [...new Set(this.rows.map(({ own }) => own[header] ?? ""))];
      const parts = values.flatMap((value) => {
        const rows = this.rows.filter(({ own }) => (own[header] ?? "") === value);
        const amount = tidy(rows.reduce((sum, row) => sum + row.amount, 0));
        return value === "" ? [] : [said.rowsSay(value, rows.length, amount, unit)];
      });
      const shown = parts.slice(0, MOST_VALUES).join(", ");
      return { header, says: parts.length > MOST_VALUES ? `${shown} …` : shown };
    });
  }
}

/** Columns that a reader may think are counted. */
const MIGHT_COUNT = /factor|simultan|diversity|coinciden|utili[sz]|duty|state|status|standing/i;
const MOST_VALUES = 6;

function isNear(one: number, other: number): boolean {
  return Math.abs(one - other) <= ROUNDED * Math.abs(other) + 1e-9;
}

/** Sums of decimals without their last digits. */
function tidy(sum: number): number {
  return Number(sum.toPrecision(12));
}

/** Headers of the block as the sheet shows them, for a choice of roles. */
export function roleText(block: ListBlock, role: string): string {
  const column = columnOfRole(block, role);
  if (!column) return role;
  return role.endsWith(OF_ALL) ? `${column.header}${said.ofAll}` : headerText(column);
}
