/** The first page of a report: what the document is, who answers for it, what it covers. */
import { text } from "../../functions/documents/markup.js";
import { ENGINE_VERSION } from "../../functions/downfeed.js";
import { textOf } from "../budgets/reading/range-table.js";
import { issueState } from "../budgets/issues/issues.js";
import { DOCUMENT_LINES } from "../budgets/places.js";
import { blank } from "../budgets/samples/blank.js";
import { issueWords } from "../words/issue-words.js";
import { documentLine, inputsSheet, type ReportSource } from "./report-source.js";

const SIGNED = ["author", "checker", "approver"] as const;

const COVERS =
  "It covers the direct-current feed of the single-line diagram in steady state: voltages, currents, losses and what the checks compare with what is asked for.";
const COVERS_NOT =
  "It does not cover what is not entered, faults to earth, transients other than those that a check names, or the type test of any equipment.";

/** @param fingerprint Of the schedules and requirements. @param printed When, as the reader writes dates. */
export function cover(source: ReportSource, fingerprint: string, printed: string): string {
  const { title, budget } = source;
  const written = textOf(inputsSheet(source)?.values[1]?.[0]);
  // What an empty budget tells whoever fills it.
  const story = written === blank.story ? "" : written;
  const isElsewhere = (line: string) =>
    line === "title" || line === "fingerprint" || SIGNED.some((one) => one === line);
  const lines = DOCUMENT_LINES.filter(([line]) => !isElsewhere(line)).map(
    ([line, label]) => [label, documentLine(source, line)] as const,
  );
  const versions = textOf(budget.ranges["About"]?.values[0]?.[1]);
  return `<section class="cover">
<h1>${text(title)}</h1>
${story === "" ? "" : `<p>${text(story)}</p>`}
<table><caption>Document</caption><tbody>
${[
  ...lines,
  ["Fingerprint of schedules and requirements", fingerprint] as const,
  ["State", issueLine(source, fingerprint)] as const,
  [
    "Printed",
    `${printed}, budget ${budget.stem}, sheets of version ${versions}, Downfeed ${ENGINE_VERSION}`,
  ] as const,
]
  .map(
    ([label, value]) =>
      `<tr><th scope="row">${text(label)}</th><td>${text(value === "" ? "–" : value)}</td></tr>`,
  )
  .join("\n")}
</tbody></table>
<table class="sign"><caption>Signatures</caption><thead><tr>${["", "Name", "Signature", "Date"]
    .map((label) => `<th scope="col">${label}</th>`)
    .join("")}</tr></thead><tbody>
${SIGNED.map((line) => {
  const [, label = ""] = DOCUMENT_LINES.find(([key]) => key === line) ?? [];
  return `<tr><th scope="row">${text(label)}</th><td>${text(documentLine(source, line))}</td><td></td><td></td></tr>`;
}).join("\n")}
</tbody></table>
<p>${text(COVERS)}</p>
<p>${text(COVERS_NOT)}</p>
</section>`;
}

/** Paper and file are told to hold the same by it: what was issued against what stands on the sheets now. */
function issueLine(source: ReportSource, fingerprint: string): string {
  const state = issueState(source.budget, fingerprint);
  const issued = documentLine(source, "fingerprint");
  const said = issueWords.state(state);
  return state.kind === "changed since"
    ? `${said}, whose fingerprint is ${issued || "missing"}`
    : said;
}
