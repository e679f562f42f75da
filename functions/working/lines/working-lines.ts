/**
 * The working of one call, line by line, linked: each line knows what is read from the workbook, from other lines or
 * from a printed table. The pane's steps, the layout in a sheet and the plain copy are three ways to write these lines.
 */
import type { Quantity, Step } from "../../../src/quantities/steps.js";
import type { Origin } from "./call-answer.js";
import type { FormulaPart, SheetRange } from "./call-tree.js";

/** A piece of a native formula: text, a cell of the workbook, another line of the call, or a part of the formula. */
export type NativePiece =
  | string
  | { readonly cell: SheetRange }
  | { readonly line: string }
  | { readonly part: FormulaPart };

export type Native = readonly NativePiece[];

/** A condition that must hold for the line to stand, and what it is in words. */
export interface Check {
  readonly words: string;
  readonly holds: Native;
}

/** How a given gets its value. */
export type GivenLink =
  /**
   * From one cell of an argument; one unit of the given is `perUnit` of the cell's. `word`: what it holds that is no
   * figure, such as a size.
   */
  | {
      readonly kind: "linked";
      readonly origin: Origin;
      readonly perUnit: number;
      readonly word?: string | number;
    }
  /** Not given; where a blank cell was named, that. */
  | { readonly kind: "default"; readonly origin: Origin | undefined }
  /** The same number as another line. */
  | { readonly kind: "line"; readonly line: string }
  /**
   * `reads`: the cells that count, where the formula also asks others. `told`: how the value comes of them, its numbers
   * in the given's unit.
   */
  | {
      readonly kind: "native";
      readonly native: Native;
      readonly reads?: readonly SheetRange[];
      readonly told?: readonly (string | number)[];
    }
  /** A number that the function reads a word as: `exact` as 0. */
  | { readonly kind: "read"; readonly word: string }
  /** A number of a solved case, told in words: it does not follow its inputs. `reads`: the cells that it is about. */
  | { readonly kind: "frozen"; readonly told: string; readonly reads?: readonly SheetRange[] }
  /** The function's own, not traced to an argument. */
  | { readonly kind: "taken" };

interface AnyLine {
  /** Unique within the call. */
  readonly key: string;
  readonly quantity: Quantity;
  /** In the quantity's unit, not in the shown one. */
  readonly value: number | string;
  readonly checks: readonly Check[];
}

export interface GivenLine extends AnyLine {
  readonly kind: "given";
  readonly link: GivenLink;
}

export interface StepLine extends AnyLine {
  readonly kind: "step";
  readonly value: number;
  readonly step: Step;
  /** Key of the line of every field that the step reads. */
  readonly lineOf: (field: string) => string | undefined;
}

export type Line = GivenLine | StepLine;

export interface LineGroup {
  readonly title: string;
  readonly lines: readonly Line[];
}

export function lineKey(working: number, field: string): string {
  return `${working}.${field}`;
}

export function argumentKey(parameter: string, cell: number): string {
  return `argument.${parameter}.${cell}`;
}

/** The guard of what was found by a text or a number. Two numbers are one where 12 digits agree. */
export function foundFor(key: number | string, where: NativePiece): Check {
  const words = `found for ${key}`;
  if (typeof key === "string")
    return {
      words,
      holds: ["EXACT(TRIM(", where, `),${quotedText(trimmed(key))})`],
    };
  const size = nativeNumber(Math.abs(key));
  return {
    words,
    holds: ["ABS(", where, `-(${nativeNumber(key)}))<=1E-12*${size}`],
  };
}

/** As a spreadsheet trims: single spaces inside, too. */
function trimmed(text: string): string {
  return text.replace(/ +/g, " ").replace(/^ | $/g, "");
}

export function quotedText(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** A number in a formula. Some spreadsheets read 15 digits of it, which is why values stand in cells of their own. */
export function nativeNumber(value: number): string {
  return String(value).toUpperCase().replace("E+", "E");
}

/** Where a value stands in the workbook; undefined for one that is written in the formula itself. */
export function placeOf(origin: Origin): NativePiece | undefined {
  if (origin.kind === "cell") return { cell: origin.range };
  if (origin.kind === "within" || origin.part.kind === "literal") return undefined;
  return { part: origin.part };
}
