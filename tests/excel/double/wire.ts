/** The objects that the library asks for, and the answers to it. */
import type { WireArguments, WireError } from "../office-library.js";

/** The library's own numbers for what it sends. */
export const PATH = { root: 1, method: 3, property: 4, indexer: 5, reference: 6 };
export const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 };
export const EVENT = {
  changed: 10,
  activated: 11,
  added: 13,
  selection: 14,
  deleted: 15,
  calculated: 16,
};

/** An object of the workbook as the library asks for it. */
export interface Target {
  readonly methods?: Readonly<Record<string, (...args: never[]) => unknown>>;
  /** Objects behind it, by property. */
  readonly parts?: Readonly<Record<string, () => Target>>;
  /** Properties, each read when asked for. */
  readonly values?: Readonly<Record<string, () => unknown>>;
  readonly set?: (property: string, value: unknown) => void;
  readonly items?: () => readonly Target[];
  readonly identity?: Readonly<Record<string, string>>;
}

export const NULL_OBJECT = "null object";

/** What Excel answers in place of a result; tests let it refuse by this too. */
export class ExcelRefusal extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

export const EVENT_METHODS: Readonly<Record<string, () => unknown>> = Object.fromEntries(
  ["DataChanged", "Calculated", "SelectionChanged", "Activated", "Added", "Deleted"].flatMap(
    (event): [string, () => unknown][] => [
      [`_Register${event}Event`, () => undefined],
      [`_Unregister${event}Event`, () => undefined],
    ],
  ),
);

export function queried(target: Target, select: readonly string[], what: string) {
  const read = (one: Target): Record<string, unknown> => ({
    ...one.identity,
    ...Object.fromEntries(
      select.map((field): [string, unknown] => {
        const key = field.charAt(0).toUpperCase() + field.slice(1);
        return [key, required(one.values?.[key], `${what}: ${key}`)()];
      }),
    ),
  });
  return target.items ? { _Items: target.items().map(read) } : read(target);
}

export function called(
  target: Target,
  method: string,
  { Arguments = [], ReferencedObjectPathIds = [] }: WireArguments = {},
  resolve: (id: number) => Target | typeof NULL_OBJECT,
): unknown {
  const args = Arguments.map((argument, index) => {
    const path = ReferencedObjectPathIds[index];
    return path ? resolve(path) : argument;
  });
  return required(target.methods?.[method], `the method ${method}`)(...(args as never[]));
}

/** @throws {ExcelRefusal} */
export function required<T>(found: T | undefined, what: string, code = "ApiNotFound"): T {
  if (found === undefined) throw new ExcelRefusal(code, `${what} is not there`);
  return found;
}

export function wireError(error: unknown, what: string): WireError {
  if (!(error instanceof ExcelRefusal)) throw error;
  return { Code: error.code, Message: error.message, Location: what };
}
