/** Acceptances of the checks of 0.2 for the same check of the same item, where it finds what was accepted then. */
import { CHECK_NAMES, type CheckName } from "../../../src/judgement/check-row.js";
import { figure } from "../../../src/quantities/figures.js";
import { sameItem } from "../reading/range-table.js";
import type { FoundBudget } from "../reading/found-budget.js";
import { type Acceptance, acceptances, findingLine } from "../warnings/acceptances.js";
import type { Finding } from "../warnings/warning.js";
import { warningsOf } from "../warnings/warnings.js";

export interface CarriedAcceptance extends Pick<Acceptance, "id" | "accepted" | "reason"> {
  readonly finding: string;
}

export interface MovedAcceptances {
  readonly carried: readonly CarriedAcceptance[];
  /** A line each, of checks that find something else now. */
  readonly lost: readonly string[];
}

/** A line for each acceptance that is not of a check: such warnings have no like among schedules. */
export function otherAcceptances({ ranges }: FoundBudget): readonly string[] {
  return acceptances(ranges["Accepted"])
    .filter(({ id }) => aboutCheck(id) === undefined)
    .map(inWords);
}

function inWords({ id, finding, reason, accepted }: Acceptance): string {
  return `acceptance of “${finding || id}”: ${reason}, ${accepted}`;
}

export function movedAcceptances(old: FoundBudget, moved: FoundBudget): MovedAcceptances {
  const failing = warningsOf(moved)
    .filter(({ severity }) => severity !== "not determined")
    .flatMap(({ check, findings }) => findings.map((finding) => ({ check, finding })));
  const carried: CarriedAcceptance[] = [];
  const lost: string[] = [];
  for (const one of acceptances(old.ranges["Accepted"])) {
    const about = aboutCheck(one.id);
    if (!about) continue;
    const now = failing.find(
      ({ check, finding }) =>
        check === about.check && (about.isWhole || sameItem(finding.item, about.item)),
    );
    if (now && isAsAccepted(one, now.finding))
      carried.push({
        id: now.finding.id,
        accepted: one.accepted,
        reason: one.reason,
        finding: findingLine(now.finding),
      });
    else lost.push(inWords(one));
  }
  return { carried, lost };
}

/** `check Drop Cable to the summit`; the items of what is about a whole feed are its supplies now. */
function aboutCheck(id: string) {
  const check = CHECK_NAMES.filter((name) => id.startsWith(`check ${name} `)).sort(
    (one, other) => other.length - one.length,
  )[0];
  if (check === undefined) return undefined;
  const item = id.slice(`check ${check} `.length);
  return { check: check satisfies CheckName, item, isWhole: sameItem(item, "Whole feed") };
}

/** A reason was given for a figure: of another one nobody has judged it. */
function isAsAccepted({ finding }: Acceptance, { found }: Finding): boolean {
  return typeof found === "number" && finding.includes(`Found ${figure(found)} `);
}
