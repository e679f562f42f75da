/** In the browser's own storage on this computer; where a page is refused that, the steps are shown at every visit. */
import type { StepsMemory } from "./views/head/first-steps.js";

const KEY = "downfeed first steps";
const CLOSED = "closed";

export const stepsMemory: StepsMemory = {
  closedBefore: () => storage()?.getItem(KEY) === CLOSED,
  rememberClosed: () => storage()?.setItem(KEY, CLOSED),
};

/** Undefined where the browser blocks it, which it tells by throwing. */
function storage(): Storage | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}
