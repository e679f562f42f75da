/** Asks what an issue is called, what it is for and who answers for it; shows what changed since the last one. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { HeldChange } from "../../budgets/issues/issued-values.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { documentText, issues, nextIssue } from "../../budgets/issues/issues.js";
import { titleOf } from "../../workbook/found-budgets.js";
import type { IssueEntry } from "../../workbook/issues/issuing.js";
import { issueWords as said } from "../../words/issue-words.js";
import { isoDate } from "../../words/words.js";
import { AnsweredForm, type FocusHome } from "../parts/answered-form.js";
import { freshId } from "../parts/element.js";
import type { HandOverCommands } from "./hand-over-commands.js";

const FIELDS = ["issue", "date", "purpose", "author", "checker", "approver", "change"] as const;
const SHOWN_CHANGES = 8;

export interface IssueFormProps {
  readonly budget: FoundBudget;
  readonly commands: HandOverCommands;
  readonly close: () => void;
  readonly home: FocusHome;
}

export function IssueForm({ budget, commands, close, home }: IssueFormProps) {
  const stem = useMemo(() => freshId("issue"), []);
  const first = useRef<HTMLInputElement>(null);
  const last = issues(budget).at(-1)?.item;
  const [entry, change] = useState<IssueEntry>(() => proposal(budget, last));
  const [changes, show] = useState<readonly HeldChange[]>();
  const [fault, setFault] = useState("");
  const told = (error: unknown) => setFault(error instanceof Error ? error.message : String(error));
  useLayoutEffect(() => first.current?.focus(), []);
  useEffect(() => {
    commands.changes(budget).then((found) => {
      show(found);
      if (found) change((now) => ({ ...now, change: now.change || said.changesInShort(found) }));
    }, told);
    // Once, as it opens: typing on the sheet meanwhile is no reason to write over what is typed here.
  }, []);

  const submit = () => {
    const issue = entry.issue.trim();
    if (issue === "") {
      setFault(said.issueNeeded);
      first.current?.focus();
      return;
    }
    commands.issue(budget, { ...entry, issue }).then(close, told);
  };
  return (
    <AnsweredForm
      label={said.title(titleOf(budget))}
      fault={fault}
      yes={said.save}
      no={said.cancel}
      submit={submit}
      leave={close}
      home={home}
    >
      <p class="feed-quiet">{said.about(budget.ranges["Issues"]?.sheet ?? "")}</p>
      {last !== undefined && changes && <Changes last={last} changes={changes} />}
      {FIELDS.map((field) => (
        <div class="feed-argument" key={field}>
          <label class="feed-label" for={`${stem}-${field}`}>
            {said[field]}
          </label>
          <input
            class="feed-input"
            id={`${stem}-${field}`}
            ref={field === "issue" ? first : null}
            list={field === "purpose" ? `${stem}-purposes` : undefined}
            autocomplete="off"
            value={entry[field]}
            onInput={({ currentTarget }) => change({ ...entry, [field]: currentTarget.value })}
          />
        </div>
      ))}
      <datalist id={`${stem}-purposes`}>
        {said.purposes.map((purpose) => (
          <option key={purpose} value={purpose} />
        ))}
      </datalist>
    </AnsweredForm>
  );
}

function proposal(budget: FoundBudget, last: string | undefined): IssueEntry {
  const typed = documentText(budget, "issue");
  return {
    // One that is typed on Inputs and not issued yet.
    issue: typed !== "" && typed !== last ? typed : nextIssue(last),
    date: isoDate(new Date()),
    purpose: documentText(budget, "purpose"),
    author: documentText(budget, "author"),
    checker: documentText(budget, "checker"),
    approver: documentText(budget, "approver"),
    change: last === undefined ? said.firstChange : "",
  };
}

function Changes({ last, changes }: { last: string; changes: readonly HeldChange[] }) {
  if (changes.length === 0) return <p class="feed-quiet">{said.unchanged(last)}</p>;
  const more = changes.length - SHOWN_CHANGES;
  return (
    <>
      <p class="feed-label">{said.changed(last)}</p>
      <ul class="feed-findings">
        {changes.slice(0, SHOWN_CHANGES).map((one) => (
          <li key={said.changeLine(one)}>{said.changeLine(one)}</li>
        ))}
        {more > 0 && <li>{said.more(more)}</li>}
      </ul>
    </>
  );
}
