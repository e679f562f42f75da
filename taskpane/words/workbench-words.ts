/** What the page of the workbench says around its spreadsheet and pane, in its language. */
import { language } from "./language.js";

export const workbenchWords = language.workbench;
