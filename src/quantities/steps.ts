import type { CitationId } from "./citations.js";

/** What people read about a number. */
export interface Quantity {
  readonly label: string;
  readonly symbol: string;
  readonly unit: string;
  /** What people type and read instead of `unit`; one `unit` is `perUnit` of these. */
  readonly shown?: { readonly unit: string; readonly perUnit: number };
}

/** Where a formula or a figure comes from; a definition needs no source. */
export type Cited = CitationId | "definition";

/** How one number of a result comes about. */
export type Step = Quantity & { readonly cite: Cited } & (
    | {
        readonly kind: "formula";
        /** In field names of the givens and of earlier steps, in the grammar of `formulas.ts`. */
        readonly formula: string;
      }
    | {
        readonly kind: "lookup";
        /** The printed table. */
        readonly table: string;
        /** The given that the value was found by. */
        readonly key: string;
      }
    | {
        readonly kind: "solved";
        /** An expression that is 0 at the answer, in the grammar of `formulas.ts`. */
        readonly residual: string;
      }
  );

export type Steps = Readonly<Record<string, Step>>;
/** Steps of which those named are certainly there. */
export type StepsWith<Name extends string> = Steps & Readonly<Record<Name, Step>>;
export type Quantities = Readonly<Record<string, Quantity>>;

/** A value that is calculated correctly but may not apply: outside a source's range, or resting on an assumption. */
export interface Caveat {
  readonly code: string;
  /** The number that the note is about, by its name in the record. */
  readonly field: string;
  readonly text: string;
  readonly cite: Cited;
}

type NumberFields<T> = {
  [Field in keyof T]-?: T[Field] extends number ? Field : never;
}[keyof T];

/** One description for every number in `T`; a number without one does not compile. */
export type QuantitiesOf<T> = { readonly [Field in NumberFields<T>]: Quantity };
export type StepsOf<T> = { readonly [Field in NumberFields<T>]: Step };
