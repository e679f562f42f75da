/** Every check, and the judgement of a feed: what each finds, row by row. */
import { feedTopology } from "../network/feed-topology.js";
import { InputError, NoAnswerError, ToldError } from "../quantities/errors.js";
import { TABLE_COLUMNS } from "../schedules/columns.js";
import { BAND_CHECKS } from "./checks/band-checks.js";
import { CABLE_CHECKS } from "./checks/cable-checks.js";
import type { Change, Check, Finding, FindingWorking } from "./check.js";
import {
  ASKED_FOR,
  CHECK_NAMES,
  type CheckName,
  type CheckRow,
  NONE,
  type Verdict,
  WHOLE_FEED,
} from "./check-row.js";
import {
  carriedFinding,
  HEADROOM,
  WHOLE_CHECKS,
  type WholeCheckName,
  type WholeFeed,
} from "./checks/feed-checks.js";
import { FUSE_CHECKS } from "./checks/fuse-checks.js";
import { type JudgedFeed, rowsOf } from "./judged-feed.js";
import { type Judge, mendOf } from "./mends/mends.js";
import { MissingFigure, MissingRequirement, Place } from "./place.js";
import type { Requirements } from "./requirements.js";
import { STAGE_CHECKS } from "./checks/stage-checks.js";
import { isUntried, SearchedTree } from "./searched-tree.js";
import type { TreeContext, TreeFault } from "./tree-context.js";
import { VOLTAGE_CHECKS } from "./checks/voltage-checks.js";

type ItemCheckName = Exclude<CheckName, WholeCheckName | "Operating point">;

/** Checks of one supply, stage, cable, item in line or load; each says where it applies. */
export const ITEM_CHECKS: Readonly<Record<ItemCheckName, Check>> = {
  "Headroom to collapse": HEADROOM,
  ...VOLTAGE_CHECKS,
  ...BAND_CHECKS,
  ...CABLE_CHECKS,
  ...FUSE_CHECKS,
  ...STAGE_CHECKS,
};

const OPERATING_POINT: Omit<Check, "find"> = {
  asked: "is",
  weight: "danger",
  means: "it does not work with these loads",
  cite: "two-roots",
};

/** What is said of every check that does not hold. */
export const CHECKS: Readonly<Record<CheckName, Omit<Check, "find">>> = {
  ...WHOLE_CHECKS,
  "Operating point": OPERATING_POINT,
  ...ITEM_CHECKS,
};

/** A row of the judgement, with the working behind its found figure where it has one. */
export interface JudgedRow extends CheckRow {
  readonly working: () => readonly FindingWorking[];
  readonly limitAsked?: string;
}

/** First the whole feed, then items in the table's order, each with its checks in the order of `CHECK_NAMES`. */
export function judgedRows(feed: JudgedFeed, requirements: Requirements): readonly JudgedRow[] {
  const { whole, places } = judgement(feed, requirements);
  const items = places.map(itemRows);
  const overall = wholeRows(whole);
  // Before the first figure is typed, what else is to be typed says nothing.
  const isBegun = whole.trees.some(({ fault }) => !(fault && waits(fault)));
  return [...(isBegun ? overall : overall.filter(isFound)), ...items.flat()];
}

/** Checks whose found figure no case but a worse one changes: one that fails at a glance fails. */
export const GLANCE_CHECKS = [
  "Input above lowest",
  "Input below highest",
  "Loading",
  "Drop",
  "Drop of a voltage level",
] as const satisfies readonly CheckName[];

/** One check of one row of a feed. */
export interface AskedCheck {
  readonly check: CheckName;
  /** Place in the feed table; undefined of a check of the whole feed. */
  readonly row: number | undefined;
}

/**
 * Rows of the judgement in the order in which they are asked for, each found only when it is come to, and without the
 * change that mends it. A tree without an operating point has but that row, so it answers for every check of its items.
 */
export function* verdictsOf(
  feed: JudgedFeed,
  requirements: Requirements,
  asked: Iterable<AskedCheck>,
  depth: "worst" | "glance" = "worst",
): Generator<{ readonly asked: AskedCheck; readonly found: JudgedRow }> {
  const { whole, places } = judgement(feed, requirements, depth);
  for (const one of asked) {
    const place = one.row === undefined ? undefined : places[one.row]!;
    for (const found of verdictRows(one.check, place, whole)) yield { asked: one, found };
  }
}

function verdictRows(check: CheckName, place: Place | undefined, whole: WholeFeed): JudgedRow[] {
  if (!place)
    return isWholeName(check) ? rowOf(check, undefined, () => WHOLE_CHECKS[check].find(whole)) : [];
  const { tree, row } = place;
  if (tree.fault) return [operatingPoint(place.at(tree.root), false)];
  if (check === "Operating point") return row === tree.root ? [operatingPoint(place, false)] : [];
  if (isWholeName(check)) return [];
  return rowOf(check, place, () => ITEM_CHECKS[check].find(place));
}

function isWholeName(name: CheckName): name is WholeCheckName {
  return name in WHOLE_CHECKS;
}

interface Judgement {
  readonly whole: WholeFeed;
  /** By row of the feed. */
  readonly places: readonly Place[];
}

function judgement(
  feed: JudgedFeed,
  requirements: Requirements,
  depth: "worst" | "glance" = "worst",
): Judgement {
  const trees = feedTopology(feed.columns).trees.map(({ order }) => {
    const rows = [...order].sort((one, other) => one - other);
    return { rows, tree: new SearchedTree(rowsOf(feed, rows), requirements, depth) };
  });
  const ofRow = new Map(
    trees.flatMap(({ rows, tree }) => rows.map((row, at) => [row, new Place(tree, at)] as const)),
  );
  return {
    whole: {
      trees: trees.map(({ tree }) => tree),
      requirements,
      unsolved: unsolvedOf(trees.map(({ tree }) => tree)),
    },
    places: Array.from({ length: feed.columns.count }, (_, row) => ofRow.get(row)!),
  };
}

function waits({ error }: TreeFault): boolean {
  return error instanceof ToldError && error.isMissing;
}

function isFound({ verdict }: JudgedRow): boolean {
  return verdict === "holds" || verdict === "fails";
}

function unsolvedOf(trees: readonly TreeContext[]): Place | undefined {
  const failed = trees.find(({ fault }) => fault !== undefined);
  return failed && new Place(failed, failed.fault!.row);
}

const WHOLE_NAMES = CHECK_NAMES.filter((name): name is WholeCheckName => name in WHOLE_CHECKS);
const ITEM_NAMES = CHECK_NAMES.filter((name): name is ItemCheckName => name in ITEM_CHECKS);

function wholeRows(feed: WholeFeed): JudgedRow[] {
  return WHOLE_NAMES.flatMap((name) => {
    const { find } = WHOLE_CHECKS[name];
    // A changed tree stands for the one with its first item.
    const findIn = (changed: TreeContext) => {
      const trees = feed.trees.map((tree) =>
        tree.feed.columns.item[0] === changed.feed.columns.item[0] ? changed : tree,
      );
      return find({ ...feed, trees });
    };
    const [tree] = feed.trees;
    if (!tree) return [];
    return rowOf(name, undefined, () => find(feed), { tree, judge: judgeOf(name, findIn) });
  });
}

/** A tree that is refused or collapses has one row in all; ten behind it would say nothing more. */
function itemRows(place: Place): JudgedRow[] {
  const { tree, row } = place;
  const first = row === tree.root ? [operatingPoint(place)] : [];
  if (tree.fault) return first;
  return [
    ...first,
    ...ITEM_NAMES.flatMap((name) => {
      const { find, holdsIn } = ITEM_CHECKS[name];
      const judge = {
        ...judgeOf(name, (changed) => find(new Place(changed, row))),
        ...(holdsIn && { holdsIn: (changed: TreeContext) => holdsIn(new Place(changed, row)) }),
      };
      return rowOf(name, place, () => find(place), { tree, judge });
    }),
  ];
}

function isHeld(name: CheckName, { holds, found, limit }: Finding): boolean {
  return holds ?? isWithin(CHECKS[name].asked, found, limit);
}

function judgeOf(name: CheckName, find: Judge["find"]): Judge {
  const { asked } = CHECKS[name];
  return {
    find,
    holds: (finding) => isHeld(name, finding),
    margin: ({ holds, found, limit }) =>
      holds === undefined ? evenMargin(asked, found, limit) : undefined,
  };
}

const NO_WORKING = () => [];

/** What a change that mends a failed check is sought with. */
interface Search {
  readonly tree: TreeContext;
  readonly judge: Judge;
}

/**
 * @param place Undefined of the whole feed.
 * @param search Left out where only the verdict is asked for.
 */
function rowOf(
  name: CheckName,
  place: Place | undefined,
  find: () => Finding | undefined,
  search?: Search,
): JudgedRow[] {
  const item = place?.name ?? WHOLE_FEED;
  try {
    const finding = find();
    return finding ? [foundRow(name, place, finding, search)] : [];
  } catch (error) {
    if (error instanceof MissingFigure) return [missingRow(name, item, place, error)];
    if (error instanceof MissingRequirement) return [unaskedRow(name, item, error)];
    // A figure that the calculation refuses, or a question that has no answer: said in the row.
    if (error instanceof InputError || error instanceof NoAnswerError)
      return [refusedRow(name, item, place, error)];
    throw error;
  }
}

function common(name: CheckName, item: string) {
  const { asked, weight, cite } = CHECKS[name];
  return { item, check: name, asked, weight, cite };
}

/** Nothing is found, and what would have to be entered for it. */
const NOTHING_FOUND = {
  worstIn: "",
  found: NONE,
  limit: NONE,
  unit: "",
  margin: undefined,
  working: NO_WORKING,
} as const;

/** Equal but for rounding is within. */
const ROUNDING = 1e-12;

function foundRow(
  name: CheckName,
  place: Place | undefined,
  finding: Finding,
  search: Search | undefined,
): JudgedRow {
  const { found, limit, unit, worstIn, unless, field } = finding;
  const { asked } = CHECKS[name];
  const item = place?.name ?? WHOLE_FEED;
  const holds = isHeld(name, finding);
  const verdict: Verdict = !holds
    ? "fails"
    : unless?.why === "not given"
      ? "not determined"
      : "holds";
  const row = {
    ...common(name, item),
    worstIn,
    found,
    limit,
    unit,
    margin: finding.margin ?? marginOf(asked, found, limit),
    verdict,
    working: finding.working ?? NO_WORKING,
    ...(finding.limitAsked !== undefined && { limitAsked: finding.limitAsked }),
  };
  if (verdict === "not determined" && unless)
    return {
      ...row,
      cause: ASKED_FOR,
      column: unless.label,
      enterOrTry: `enter ${unless.label}, or "not asked"`,
    };
  if (finding.lacking) {
    const missing = missingRow(name, item, place, finding.lacking);
    const { cause, column, enterOrTry } = missing;
    // A change that is solved without the figure would mend less than it says.
    return holds ? missing : { ...row, cause, column, enterOrTry };
  }
  if (holds || !search) return { ...row, cause: "", column: "", enterOrTry: "" };
  const change = mendOf(finding, search.judge, search.tree);
  return { ...row, ...changed(item, change, finding.cause ?? place, field) };
}

/** What is to be changed, or where the cause lies that no single figure mends. */
function changed(
  item: string,
  change: Change | string,
  cause: Place | undefined,
  field: string | undefined,
): Pick<CheckRow, "cause" | "column" | "enterOrTry"> {
  const isTold = typeof change !== "string";
  const at = isTold ? change.at : cause;
  const named = isTold ? change.field : field;
  return {
    cause: !at || at.name === item ? "" : at.name,
    column: named === undefined || !at ? "" : at.header(named),
    enterOrTry: isTold ? change.text : change,
  };
}

function isWithin(asked: Check["asked"], found: number | string, limit: number | string): boolean {
  if (typeof found !== "number" || typeof limit !== "number")
    throw new Error("words without a verdict");
  const slack = ROUNDING * Math.abs(limit);
  return asked === "at least" ? found >= limit - slack : found <= limit + slack;
}

function marginOf(
  asked: Check["asked"],
  found: number | string,
  limit: number | string,
): number | undefined {
  if (typeof found !== "number" || typeof limit !== "number" || limit === 0) return undefined;
  // Never -0, which some programs show as such.
  const left = asked === "at least" ? found - limit : limit - found;
  return left / Math.abs(limit);
}

/** The same with its sign, as it goes evenly with the steps of a figure that goes by parts of itself. */
function evenMargin(
  asked: Check["asked"],
  found: number | string,
  limit: number | string,
): number | undefined {
  if (typeof found !== "number" || typeof limit !== "number") return undefined;
  const parts = Math.log(found / limit);
  if (!Number.isFinite(parts)) return marginOf(asked, found, limit);
  return asked === "at least" ? parts : -parts;
}

function missingRow(
  name: CheckName,
  item: string,
  place: Place | undefined,
  { place: lacking, fields, advice }: MissingFigure,
): JudgedRow {
  const unread = fields.map((field) => lacking.details.unread.get(field)).find(Boolean);
  const names = fields.map((field) => lacking.said(field));
  const list = names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : names[0];
  const refusal = unread ? `: it must be ${unread.requirement}` : "";
  return {
    ...common(name, item),
    ...NOTHING_FOUND,
    verdict: "not determined",
    cause: place && lacking.row === place.row ? "" : lacking.name,
    column: fields[0] === undefined ? "" : lacking.header(fields[0]),
    enterOrTry: advice ?? `enter ${list} of ${lacking.name}${refusal}`,
  };
}

/** Without its unit, as people say it. */
function plainHeaderOf(field: string): string {
  return TABLE_COLUMNS.find((one) => one.field === field)?.header ?? field;
}

function unaskedRow(
  name: CheckName,
  item: string,
  { label, why, advice }: MissingRequirement,
): JudgedRow {
  return {
    ...common(name, item),
    ...NOTHING_FOUND,
    ...(why === "not asked" && { weight: "note" as const }),
    verdict: why === "not asked" ? "not asked" : "not determined",
    cause: ASKED_FOR,
    column: label,
    enterOrTry: why === "not asked" ? "" : (advice ?? `enter ${label}, or "not asked"`),
  };
}

function refusedRow(
  name: CheckName,
  item: string,
  place: Place | undefined,
  error: InputError | NoAnswerError,
): JudgedRow {
  const field = error instanceof InputError ? error.field : "";
  const header = place && place.header(field);
  return {
    ...common(name, item),
    ...NOTHING_FOUND,
    verdict: "not determined",
    cause: "",
    column: header ?? "",
    enterOrTry: header ? error.message.replace(field, plainHeaderOf(field)) : error.message,
  };
}

function operatingPoint(place: Place, isAdvised = true): JudgedRow {
  const { tree, name } = place;
  const row = {
    ...common("Operating point", name),
    ...NOTHING_FOUND,
    limit: "in every case",
  };
  const { fault } = tree;
  if (!fault) {
    const { supplies } = tree;
    const lacking = supplies.includes("lowest") ? "highestVoltage" : "lowestVoltage";
    return supplies.length === 3
      ? {
          ...row,
          found: "in every case",
          verdict: "holds",
          cause: "",
          column: "",
          enterOrTry: "",
        }
      : {
          ...row,
          found: `in ${tree.cases.length} of 9 cases`,
          verdict: "not determined",
          cause: "",
          column: place.header(lacking),
          enterOrTry: `enter ${supplies.length === 1 ? "Lowest V and Highest V" : plainHeaderOf(lacking)} of ${name}: its nominal voltage stands in for them`,
        };
  }
  const blamed = place.at(fault.row);
  const cause = fault.row === place.row ? "" : blamed.name;
  if (fault.error instanceof InputError) {
    // A tree that no supply begins: whatever else is refused there, it hangs on nothing.
    const isLoose = blamed.row === tree.root && blamed.kind.role !== "supply";
    const field = isLoose ? "fedFrom" : fault.error.field;
    const reason = `${blamed.name}: ${fault.error.message.replace(field, plainHeaderOf(field))}`;
    return {
      ...row,
      verdict: "not determined",
      cause,
      column: blamed.header(field),
      enterOrTry: blamed.word("note") ?? reason,
    };
  }
  const worstIn = [fault.text, fault.error.message];
  const failed = { ...row, worstIn: worstIn.filter(Boolean).join(": ") };
  if (isUntried(fault))
    return {
      ...failed,
      verdict: "not determined",
      cause,
      column: "",
      enterOrTry: "judge a part of the feed by itself",
    };
  if (!isAdvised) return { ...failed, verdict: "fails", cause, column: "", enterOrTry: "" };
  const finding = carriedFinding(tree);
  const change = mendOf(finding, judgeOf("Operating point", carriedFinding), tree);
  return { ...failed, verdict: "fails", ...changed(name, change, blamed, undefined) };
}
