/** What a native copy of a call keeps of its steps: formulas as they are, and values that come out of a table. */
import type { Working } from "../../functions/downfeed.js";

/** The steps without their values, but with those that come out of a table. */
export function formOf(workings: readonly Working[]): string {
  return JSON.stringify(
    workings.map(({ steps, values }) =>
      Object.entries(steps).map(([field, step]) => [
        field,
        step,
        step.kind === "lookup" ? values[field] : "",
      ]),
    ),
  );
}
