/** What the pane says, in its language. */
import { language } from "./language.js";

export { isoDate } from "./iso-date.js";

export const words = language.pane;
