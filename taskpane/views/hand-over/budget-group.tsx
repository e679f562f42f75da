/** One budget with what can be made of it. */
import { useMemo, useRef, useState } from "preact/hooks";
import { fingerprint } from "../../budgets/issues/fingerprint.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { issueState } from "../../budgets/issues/issues.js";
import type { Host } from "../../hosts/host.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { issueWords } from "../../words/issue-words.js";
import { words } from "../../words/words.js";
import { GoTo } from "../parts/button.js";
import type { HandOverCommands } from "./hand-over-commands.js";
import { IssueForm } from "./issue-form.js";
import { KeepForm } from "./keep-form.js";

const said = words.handOver;

export interface BudgetGroupProps {
  readonly host: Host;
  readonly budget: FoundBudget;
  /** A title for a version of it that no budget has. */
  readonly proposed: string;
  readonly commands: HandOverCommands;
}

type FormName = "keep" | "issue";

export function BudgetGroup({ host, budget, proposed, commands }: BudgetGroupProps) {
  const [opened, open] = useState<FormName>();
  const openers = {
    keep: useRef<HTMLButtonElement>(null),
    issue: useRef<HTMLButtonElement>(null),
  };
  const print = useMemo(() => fingerprint(budget), [budget]);
  const close = () => open(undefined);
  const action = (label: string, press: (budget: FoundBudget) => void) => (
    <button type="button" class="feed-button" onClick={() => press(budget)}>
      {label}
    </button>
  );
  const opener = (form: FormName, label: string) => (
    <button
      type="button"
      class="feed-button"
      ref={openers[form]}
      aria-expanded={opened === form}
      onClick={() => open(opened === form ? undefined : form)}
    >
      {label}
    </button>
  );
  const start = budget.ranges["Title"];
  return (
    <section class="feed-group">
      <h3 class="feed-group-heading">{`${titleOf(budget)} · ${budget.stem}`}</h3>
      <p class="feed-quiet">{said.fingerprint(print)}</p>
      <p class="feed-quiet">{`${issueWords.state(issueState(budget, print))}.`}</p>
      <div class="feed-actions">
        {start && <GoTo to={{ sheet: start.sheet, address: "A1" }}>{said.goTo(start.sheet)}</GoTo>}
        {opener("keep", said.versions.keep)}
        {host.can("saved files") && action(said.plainFile, commands.plainFile)}
        {action(said.plainSheets, commands.plainSheets)}
        {host.can("saved files") && action(said.report, commands.report)}
        {host.can("page setup") && action(said.reportSheet, commands.reportSheet)}
        {opener("issue", issueWords.open)}
      </div>
      {opened === "keep" && (
        <KeepForm
          budget={budget}
          proposed={proposed}
          commands={commands}
          close={close}
          home={() => openers.keep.current}
        />
      )}
      {opened === "issue" && (
        <IssueForm
          budget={budget}
          commands={commands}
          close={close}
          home={() => openers.issue.current}
        />
      )}
    </section>
  );
}
