import { defineEntry } from "../entry.js";
import { ENGINE_VERSION } from "../version.js";

const engineVersion = defineEntry({
  id: "ENGINE_VERSION",
  family: "about",
  purpose: "The version of Downfeed that calculates this workbook, as text.",
  relation: "",
  parameters: {},
  result: { shape: "text", unit: "", meaning: "version" },
  example: { args: [], gives: ENGINE_VERSION },
  citations: [],
  read: () => ({}),
  calculate: () => ({ version: ENGINE_VERSION }),
  shows: "version",
  caveats: () => [],
  working: () => [],
});

export const aboutEntries = [engineVersion];
