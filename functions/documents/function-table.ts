/** The catalogue as the table of functions that the README shows. */
import { isRepeating, type Parameter } from "../entry.js";
import type { DescribedEntry } from "./described.js";

/** Markdown, one table for each family, in the catalogue's order. */
export function functionTable(catalogue: readonly DescribedEntry[], namespace: string): string {
  const families = [...new Set(catalogue.map(({ family }) => family))];
  return families
    .map((family) => {
      const rows = catalogue
        .filter((entry) => entry.family === family)
        .map((entry) => `| \`${signature(entry, namespace)}\` | ${cellText(entry.purpose)} |`);
      return [`### ${family}`, "", "| Function | Gives |", "|---|---|", ...rows].join("\n");
    })
    .join("\n\n");
}

/** `FEED.CONDUCTOR_AREA(size)`; what may be left out stands in brackets. */
export function signature({ id, parameters }: DescribedEntry, namespace: string) {
  const names = Object.values(parameters).map(parameterName);
  return `${namespace}.${id}(${names.join(", ")})`;
}

function parameterName(parameter: Parameter): string {
  if (isRepeating(parameter)) return `${parameter.name}, …`;
  return parameter.optional ? `[${parameter.name}]` : parameter.name;
}

function cellText(text: string): string {
  return text.replaceAll("|", "\\|");
}
