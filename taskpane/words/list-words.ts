/** What pasting a list says, in its language. */
import { language } from "./language.js";

export const listWords = language.lists;
