/** In the browser's own storage; where a page is refused that, the steps are shown at every visit. */
import { browserStorage } from "./browser-storage.js";
import type { StepsMemory } from "./views/head/first-steps.js";

const KEY = "downfeed first steps";
const CLOSED = "closed";

export const stepsMemory: StepsMemory = {
  closedBefore: () => browserStorage()?.getItem(KEY) === CLOSED,
  rememberClosed: () => browserStorage()?.setItem(KEY, CLOSED),
};
