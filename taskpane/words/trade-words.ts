/** What the view of the trade-offs says, in its language. */
import { language } from "./language.js";

export const tradeWords = language.tradeoffs;
