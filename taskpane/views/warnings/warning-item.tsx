/** One warning in the list: what is asked, its items with what was found, and what can be done. */
import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";
import {
  type Acceptance,
  findingLine,
  type JudgedFinding,
  type JudgedWarning,
  warningLine,
} from "../../budgets/warnings/acceptances.js";
import type { Finding, Warning } from "../../budgets/warnings/warning.js";
import { meaningsOfBands } from "../../../src/safety/band-meanings.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import type { Acceptable, GivenReason } from "../../workbook/accepting.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";
import { GoTo } from "../parts/button.js";
import { AcceptanceForm } from "./acceptance-form.js";

const said = words.warnings;

/** What its buttons do. */
export interface WarningActions {
  readonly accept: (what: Acceptable, reason: GivenReason) => void;
  readonly withdraw: (acceptance: Acceptance) => void;
}

export interface WarningItemProps {
  readonly judged: JudgedWarning;
  readonly actions: WarningActions;
}

interface Asked {
  readonly what: Acceptable;
  readonly name: string;
}

export function WarningItem({ judged, actions }: WarningItemProps) {
  const { warning, findings } = judged;
  const [asked, ask] = useState<Asked>();
  /** The button that asked for the reason; focus goes back to it. */
  const asker = useRef<HTMLElement | null>(null);
  const close = () => {
    ask(undefined);
    asker.current?.focus();
  };
  const judge = (of: Judged, what: Acceptable, name: string) => (
    <JudgeButton
      judged={of}
      name={name}
      withdraw={actions.withdraw}
      ask={(button) => {
        asker.current = button;
        ask({ what, name });
      }}
    />
  );
  const list = (
    <ul class="feed-items">
      {findings.map((one) => (
        <FindingItem key={one.finding.id} judged={one}>
          {findings.length > 1 &&
            judge(one, { id: one.finding.id, line: findingLine(one.finding) }, one.finding.item)}
        </FindingItem>
      ))}
    </ul>
  );
  return (
    <li class={`feed-finding ${CLASS[warning.severity]}`}>
      <p class="feed-finding-title">
        <span class="feed-symbol" aria-hidden="true">
          {said.symbol[warning.severity]}
        </span>
        <span class="feed-severity">{said.severity[warning.severity]}</span>
        <span class="feed-item">{warning.check === "" ? said.whole : warning.check}</span>
      </p>
      {linesForAll(warning).map((line) => (
        <p class="feed-finding-text" key={line}>
          {line}
        </p>
      ))}
      {findings.length > MOST_SHOWN ? (
        <details>
          <summary>{said.items(findings.length)}</summary>
          {list}
        </details>
      ) : (
        list
      )}
      {warning.citation !== "" && (
        <details class="feed-citation">
          <summary>{said.citation}</summary>
          {warning.citation}
        </details>
      )}
      <AcceptanceTold {...judged} />
      {judge(judged, { id: warning.id, line: warningLine(warning) }, nameOf(warning))}
      {asked && (
        <AcceptanceForm
          what={asked.name}
          give={(reason) => {
            close();
            actions.accept(asked.what, reason);
          }}
          leave={close}
        />
      )}
    </li>
  );
}

const CLASS = {
  danger: "feed-danger",
  warning: "feed-warning",
  "not determined": "feed-undetermined",
  note: "feed-note",
} as const;

/** More items than this are folded away. */
const MOST_SHOWN = 4;

function nameOf({ check, findings }: Warning): string {
  const what = check === "" ? said.whole : check;
  if (findings.length > 1) return `${what}, ${said.items(findings.length)}`;
  const [only] = findings;
  return only && only.item !== "" ? `${what}, ${only.item}` : what;
}

/** What holds for all of its items. */
function linesForAll({ asked, cause, findings }: Warning): string[] {
  const [first] = findings;
  const isOne = findings.every(({ limit }) => limit === first?.limit);
  return [
    ...(first && isOne && isGiven(first.limit)
      ? [said.asked(asked, measure(first.limit, first.unit))]
      : []),
    ...bandLines(findings),
    ...(cause === "" ? [] : [said.cause(cause)]),
  ];
}

/** What the bands mean that the findings name, the one asked for first. */
export function bandLines(
  findings: readonly Pick<Finding, "found" | "limit">[],
): readonly string[] {
  return meaningsOfBands([
    ...findings.map(({ limit }) => limit),
    ...findings.map(({ found }) => found),
  ]);
}

function isGiven(value: number | string): boolean {
  return value !== "" && value !== "–";
}

function measure(value: number | string, unit: string): string {
  return typeof value === "number" ? shownNumber(value, unit).text : value;
}

interface FindingItemProps {
  readonly judged: JudgedFinding;
  readonly children: ComponentChildren;
}

function FindingItem({ judged, children }: FindingItemProps) {
  const { finding } = judged;
  const { item, worstIn, remedy, at, toChange = at } = finding;
  const cell = rangeText(toChange);
  return (
    <li>
      <p class="feed-finding-text">
        <strong>{item}</strong>
        {foundText(finding)}
      </p>
      {worstIn !== "" && <p class="feed-quiet">{said.worstIn(worstIn)}</p>}
      {remedy !== "" && <p class="feed-remedy">{sentence(remedy)}</p>}
      <AcceptanceTold {...judged} />
      <div class="feed-actions feed-finding-actions">
        <GoTo class="feed-button feed-go" aria-label={said.goToFor(cell, item)} to={toChange}>
          {said.goTo(cell)}
        </GoTo>
        {children}
      </div>
    </li>
  );
}

/** ` fails by 4.2 %: 0.52 V`. */
function foundText(finding: Finding): string {
  const { found, unit } = finding;
  if (!isGiven(found)) return "";
  const by = failsBy(finding);
  return ` ${by === "" ? "" : `${by}: `}${measure(found, unit)}`;
}

/** Beyond this part of the limit, how many times it is says more. */
const FAR = 10;

/** How much it fails by; "" where it holds or has no margin. */
export function failsBy({ found, limit, margin }: Finding): string {
  if (margin === undefined || margin >= 0) return "";
  const isFar = -margin > FAR && typeof found === "number" && typeof limit === "number";
  return isFar && found / limit > FAR ? said.timesLimit(found / limit) : said.failsBy(-margin);
}

function sentence(text: string): string {
  const first = text.slice(0, 1).toUpperCase();
  return `${first}${text.slice(1)}${text.endsWith(".") ? "" : "."}`;
}

type Judged = Pick<JudgedWarning, "acceptance" | "holds">;

function AcceptanceTold({ acceptance, holds }: Judged) {
  if (!acceptance) return null;
  const { reason, accepted } = acceptance;
  return <p class="feed-acceptance">{(holds ? said.because : said.lapsed)(reason, accepted)}</p>;
}

interface JudgeButtonProps {
  readonly judged: Judged;
  readonly name: string;
  readonly withdraw: (acceptance: Acceptance) => void;
  readonly ask: (button: HTMLElement) => void;
}

function JudgeButton({ judged: { acceptance, holds }, name, withdraw, ask }: JudgeButtonProps) {
  const isAccepted = holds && acceptance;
  return (
    <button
      type="button"
      class="feed-button feed-judge"
      aria-label={isAccepted ? said.withdrawFor(name) : said.acceptFor(name)}
      onClick={({ currentTarget }) => (isAccepted ? withdraw(acceptance) : ask(currentTarget))}
    >
      {isAccepted ? said.withdraw : said.accept}
    </button>
  );
}
