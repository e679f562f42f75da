/** What the view of a feed says, in its language. */
import { language } from "./language.js";

export const feedWords = language.feed;
