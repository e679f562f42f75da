/** Every budget that a user may begin with; the first one is open when the workbench starts. */
import type { BudgetSample } from "../sample.js";
import { blank } from "./blank.js";
import { harbourCrawler } from "./harbour-crawler.js";
import { ridgeTop } from "./ridge-top.js";
import { riverFerry } from "./river-ferry.js";

export const samples: readonly BudgetSample[] = [ridgeTop, blank, harbourCrawler, riverFerry];
