/** Everything that the pane says in English: the one module of this language. */
import { entryWords } from "./english/entry-words.js";
import { excelWords } from "./english/excel-words.js";
import { feedWords } from "./english/feed-words.js";
import { issueWords } from "./english/issue-words.js";
import { listWords } from "./english/list-words.js";
import { tradeWords } from "./english/trade-words.js";
import { words } from "./english/words.js";
import { workbenchWords } from "./english/workbench-words.js";

export const english = {
  pane: words,
  feed: feedWords,
  issues: issueWords,
  lists: listWords,
  tradeoffs: tradeWords,
  entries: entryWords,
  workbench: workbenchWords,
  excelPage: excelWords,
};
