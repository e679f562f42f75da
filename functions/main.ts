/**
 * The functions script: the engine, the catalogue and the runner as one classic script that runs before anything else on
 * the page. It registers the cell functions where a spreadsheet waits for them and publishes its module to the pane.
 */
import * as downfeed from "./downfeed.js";
import { registerInExcel } from "./registrations/excel.js";

Object.defineProperty(globalThis, "Downfeed", {
  value: Object.freeze({ ...downfeed }),
  enumerable: true,
});

registerInExcel();
