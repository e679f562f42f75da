/** Every budget that a user may begin with. */
import type { BudgetSample } from "../sample.js";
import { blank } from "./blank.js";
import { harbourCrawler } from "./harbour-crawler.js";
import { ridgeTop } from "./ridge-top.js";
import { riverFerry } from "./river-ferry.js";

export const samples: readonly BudgetSample[] = [
  blank,
  ridgeTop,
  harbourCrawler,
  riverFerry,
];
