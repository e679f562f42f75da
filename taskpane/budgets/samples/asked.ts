/** What the worked samples ask for alike, as their users would; each adds its own. */
import { NOT_ASKED } from "../../../src/judgement/requirements.js";
import type { BudgetSample } from "../sample.js";

const PRACTICE = "common practice, no source";

export const ASKED_ALIKE = {
  "Largest drop of a voltage level": NOT_ASKED,
  "Largest loading of a stage": 1,
  "Largest loading of a supply": 1,
  "Largest loading of a cable": 1,
  "Largest loading of a contact": 1,
  "Spare capacity of the supply": NOT_ASKED,
  "Margin to each window": 0,
  "Efficiency, supply to load": NOT_ASKED,
  "Largest loss at one location": NOT_ASKED,
  "Headroom to collapse": { value: 2, citation: PRACTICE },
  "Stability margin": { value: 2, citation: PRACTICE },
  "Ripple of a bus": NOT_ASKED,
  "Load current of a fuse, at most": { value: 0.8, citation: PRACTICE },
  "Far-end fault cleared within": {
    value: "table 41.1",
    citation: "IEC 60364-4-41 (from memory), distribution circuits",
  },
  "Contacts at end of life, times new": 1,
  "Discharge to": { value: 60, citation: "IEC 60204-1, 6.2.4" },
  "Discharge within": { value: 5, citation: "IEC 60204-1, 6.2.4" },
  "Stored energy": {
    value: 0.25,
    citation: "NFPA 70E article 360 (from memory), shock at 400 V or more",
  },
  "Altitude, clearances hold up to": {
    value: 2000,
    citation: "IEC 60664-1 (from memory)",
  },
  "Largest mass": NOT_ASKED,
  "Largest price": NOT_ASKED,
  Currency: "EUR",
} as const satisfies BudgetSample["asked"];
