/** What the form of the trade-offs asks for, in its language. */
import { language } from "./language.js";

export const tradeWords = language.tradeFields;
