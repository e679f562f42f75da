/** Every budget that a user may begin with. */
import type { BudgetSample } from "../sample.js";
import { ridgeTop } from "./ridge-top.js";

export const samples: readonly BudgetSample[] = [ridgeTop];
