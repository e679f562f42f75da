/** The catalogue as documents show it. */
import { catalogue } from "../catalogue.js";
import type { Entry } from "../entry.js";
import { PURPOSES } from "./purposes.js";

export interface DescribedEntry extends Entry {
  /** One line of at most 255 characters. */
  readonly purpose: string;
}

/** @throws {RangeError} for a function whose purpose is not told. */
function described(entry: Entry): DescribedEntry {
  const purpose = PURPOSES[entry.id];
  if (purpose === undefined) throw new RangeError(`${entry.id} has no purpose in purposes.ts`);
  return { ...entry, purpose };
}

export const describedCatalogue: readonly DescribedEntry[] = catalogue.map(described);
