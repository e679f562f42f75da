import axe, { type AxeResults } from "axe-core";
import type { Page } from "playwright-core";

/** What axe finds in that part of the page, and the first element that each fault is of. */
export async function axeFaults(page: Page, part = "html"): Promise<readonly string[]> {
  // A page that stays open has it already.
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe.source);
  const { violations } = await page.evaluate<AxeResults>(
    `axe.run(${JSON.stringify(part)}, { resultTypes: ["violations"] })`,
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ""}`);
}
