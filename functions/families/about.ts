import { defineEntry } from "../entry.js";
import { ENGINE_VERSION } from "../version.js";

const engineVersion = defineEntry({
  id: "ENGINE_VERSION",
  family: "about",
  parameters: {},
  result: { shape: "text", unit: "" },
  example: { args: [] },
  citations: [],
  read: () => ({}),
  calculate: () => ({ version: ENGINE_VERSION }),
  shows: "version",
  caveats: () => [],
  working: () => [],
});

export const aboutEntries = [engineVersion];
