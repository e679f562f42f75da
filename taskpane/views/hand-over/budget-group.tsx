/** One budget with what can be made of it. */
import { useMemo, useRef, useState } from "preact/hooks";
import { fingerprint } from "../../budgets/issues/fingerprint.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { issueState } from "../../budgets/issues/issues.js";
import type { Host } from "../../hosts/host.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { issueWords } from "../../words/issue-words.js";
import { words } from "../../words/words.js";
import type { HandOverCommands } from "./hand-over-commands.js";
import { IssueForm } from "./issue-form.js";

const said = words.handOver;

export interface BudgetGroupProps {
  readonly host: Host;
  readonly budget: FoundBudget;
  readonly commands: HandOverCommands;
}

export function BudgetGroup({ host, budget, commands }: BudgetGroupProps) {
  const [isIssuing, openIssue] = useState(false);
  const opener = useRef<HTMLButtonElement>(null);
  const print = useMemo(() => fingerprint(budget), [budget]);
  const close = () => {
    openIssue(false);
    opener.current?.focus();
  };
  const action = (label: string, press: (budget: FoundBudget) => void) => (
    <button type="button" class="feed-button" onClick={() => press(budget)}>
      {label}
    </button>
  );
  return (
    <section class="feed-group">
      <h3 class="feed-group-heading">{`${titleOf(budget)} · ${budget.stem}`}</h3>
      <p class="feed-quiet">{said.fingerprint(print)}</p>
      <p class="feed-quiet">{`${issueWords.state(issueState(budget, print))}.`}</p>
      <div class="feed-actions">
        {action(said.whole, commands.whole)}
        {host.can("saved files") && action(said.plainFile, commands.plainFile)}
        {action(said.plainSheets, commands.plainSheets)}
        {host.can("saved files") && action(said.report, commands.report)}
        {host.can("page setup") && action(said.reportSheet, commands.reportSheet)}
        <button
          type="button"
          class="feed-button"
          ref={opener}
          aria-expanded={isIssuing}
          onClick={() => openIssue(!isIssuing)}
        >
          {issueWords.open}
        </button>
      </div>
      {isIssuing && <IssueForm budget={budget} commands={commands} close={close} />}
    </section>
  );
}
