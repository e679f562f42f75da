/** The first page of a report: what the document is, who answers for it, what it covers. */
import { ENGINE_VERSION } from "../../../functions/downfeed.js";
import { textOf } from "../../budgets/reading/range-table.js";
import { issueState } from "../../budgets/issues/issues.js";
import { DOCUMENT_LINES } from "../../budgets/places.js";
import { blank } from "../../budgets/samples/blank.js";
import { issueWords } from "../../words/issue-words.js";
import { paragraph, type ReportBlock, table, words } from "./blocks.js";
import { documentLine, inputsSheet, type ReportSource } from "./report-source.js";

const SIGNED = ["author", "checker", "approver"] as const;

const COVERS =
  "It covers the direct-current feed of the single-line diagram in steady state: voltages, currents, losses and what the checks compare with what is asked for.";
const COVERS_NOT =
  "It does not cover what is not entered, faults to earth, transients other than those that a check names, or the type test of any equipment.";

/** @param fingerprint Of the schedules and requirements. @param printed When, as the reader writes dates. */
export function cover(
  source: ReportSource,
  fingerprint: string,
  printed: string,
): readonly ReportBlock[] {
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
  const facts = [
    ...lines,
    ["Fingerprint of schedules and requirements", fingerprint],
    ["State", issueLine(source, fingerprint)],
    [
      "Printed",
      `${printed}, budget ${budget.stem}, sheets of version ${versions}, Downfeed ${ENGINE_VERSION}`,
    ],
  ] as const;
  return [
    { kind: "title", text: title },
    ...(story === "" ? [] : [paragraph(story)]),
    table({
      caption: "Document",
      head: [],
      rows: facts.map(([label, value]) => [words(label), words(value === "" ? "–" : value)]),
      look: "facts",
    }),
    table({
      caption: "Signatures",
      head: ["", "Name", "Signature", "Date"],
      rows: SIGNED.map((line) => {
        const [, label = ""] = DOCUMENT_LINES.find(([key]) => key === line) ?? [];
        return [label, documentLine(source, line), "", ""].map(words);
      }),
      look: "signatures",
    }),
    paragraph(COVERS),
    paragraph(COVERS_NOT),
  ];
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
