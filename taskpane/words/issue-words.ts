/** What the pane and the report say of the issues of a document, in its language. */
import { language } from "./language.js";

export const issueWords = language.issues;
