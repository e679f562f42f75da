/** Why what is typed for a figure cannot stand in its cell, in its language. */
import { language } from "./language.js";

export const entryWords = language.entries;
