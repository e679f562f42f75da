/**
 * What the functions script publishes to the pane as the global `Downfeed`, so that a page holds one copy of the
 * engine. The pane imports engine and catalogue from here and nowhere else; the build replaces that import by the global.
 */
export { citationLine, citations, type CitationId } from "../src/quantities/citations.js";
export { catalogue } from "./catalogue.js";
export {
  type Argument,
  type Cell,
  type CellError,
  type CellTable,
  isBlank,
  isCellError,
  isCellTable,
} from "./cells.js";
export { isRepeating, isZeroReal } from "./entry.js";
export type { Entry, Family, Parameter, Result, Working } from "./entry.js";
export { evaluate, type Outcome, type Refusal } from "./runner.js";
export { ENGINE_VERSION } from "./version.js";
