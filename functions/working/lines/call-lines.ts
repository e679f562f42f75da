/** The lines of one call's working, in the order in which they are read. */
import { fieldsOf } from "../../../src/quantities/formulas.js";
import type { Quantity, Step } from "../../../src/quantities/steps.js";
import { isZeroReal } from "../../downfeed.js";
import type { Working } from "../../downfeed.js";
import type { CallAnswer, Origin, UsedArgument } from "./call-answer.js";
import { feedLinks } from "./feed-links.js";
import { givenLinks } from "./given-links.js";
import { sourceLinks } from "./source-links.js";
import {
  type Check,
  type GivenLine,
  type GivenLink,
  type LineGroup,
  type Native,
  type StepLine,
  argumentKey,
  foundFor,
  lineKey,
  placeOf,
} from "./working-lines.js";

/** What was given but stands in no working comes first: it may have chosen between tables. */
export function lineGroups(answer: CallAnswer): readonly LineGroup[] {
  const feed = feedLinks(answer);
  const sources = sourceLinks(answer);
  const { byWorking, claimed } = givenLinks(answer);
  const others = otherArguments(answer, claimed);
  const isOther = (key: string) => others.some((line) => line.key === key);
  const groups = answer.workings.map((working, index) =>
    groupOf(working, index, { ...byWorking[index], ...feed[index], ...sources[index] }, isOther),
  );
  return others.length === 0 ? groups : [{ title: "", lines: others }, ...groups];
}

/** Givens that are told though no formula reads them: what a cell holds, and what was solved. */
const SHOWN_UNREAD: ReadonlySet<GivenLink["kind"] | undefined> = new Set(["linked", "frozen"]);

function groupOf(
  { title, givens, steps, values: calculated }: Working,
  index: number,
  links: Readonly<Record<string, GivenLink>>,
  isOther: (key: string) => boolean,
): LineGroup {
  const values = { ...calculated, ...wordsIn(links) };
  const read = new Set(Object.values(steps).flatMap(fieldsRead));
  const undescribed = [...read].filter(
    (field) => !(field in givens) && !(field in steps) && field in links,
  );
  const quantities: readonly (readonly [string, Quantity])[] = [
    ...Object.entries(givens).filter(
      ([field]) => read.has(field) || SHOWN_UNREAD.has(links[field]?.kind),
    ),
    ...undescribed.map((field) => [field, { label: field, symbol: field, unit: "" }] as const),
  ];
  const isLine = (field: string) => field in steps || quantities.some(([given]) => given === field);
  const lineOf = (field: string) => {
    if (isLine(field)) return lineKey(index, field);
    const own = argumentKey(field, 0);
    return isOther(own) ? own : undefined;
  };
  return {
    title,
    lines: [
      ...quantities.flatMap(([field, quantity]) => {
        const value = values[field];
        if (!isValue(value)) return [];
        const link = links[field] ?? { kind: "taken" };
        return [givenLine(lineKey(index, field), quantity, value, link)];
      }),
      ...Object.entries(steps).flatMap(([field, step]) => {
        const value = values[field];
        if (typeof value !== "number") return [];
        return [stepLine(lineKey(index, field), step, values, lineOf)];
      }),
    ],
  };
}

/** A word as its cell has it, which may be in another case or spelling than the function knows it by. */
function wordsIn(links: Readonly<Record<string, GivenLink>>): Record<string, string | number> {
  return Object.fromEntries(
    Object.entries(links).flatMap(([field, link]) =>
      link.kind === "linked" && link.word !== undefined ? [[field, link.word]] : [],
    ),
  );
}

function isValue(value: unknown): value is number | string {
  return typeof value === "number" || typeof value === "string";
}

function fieldsRead(step: Step): string[] {
  switch (step.kind) {
    case "formula":
      return fieldsOf(step.formula);
    case "solved":
      return fieldsOf(step.residual);
    case "lookup":
      return [step.key];
  }
}

function givenLine(
  key: string,
  quantity: Quantity,
  value: number | string,
  link: GivenLink,
): GivenLine {
  return { kind: "given", key, quantity, value, link, checks: checksOf() };

  function checksOf(): Check[] {
    if (link.kind === "default" && link.origin) return stillBlank(link.origin);
    const isTyped =
      link.kind === "linked" && link.origin.kind === "part" && link.origin.part.kind === "literal";
    return typeof value === "string" && link.kind === "linked" && !isTyped
      ? [foundFor(value, { line: key })]
      : [];
  }
}

function stillBlank(origin: Origin): Check[] {
  const where = placeOf(origin);
  if (where === undefined) return [];
  return [
    {
      words: "not given, as then",
      holds: ["IF(ISNUMBER(", where, "),", where, "=0,LEN(", where, ")=0)"],
    },
  ];
}

function stepLine(
  key: string,
  step: Step,
  values: Working["values"],
  lineOf: (field: string) => string | undefined,
): StepLine {
  const foundBy = step.kind === "lookup" ? values[step.key] : undefined;
  const keyLine = step.kind === "lookup" ? lineOf(step.key) : undefined;
  const field = key.slice(key.indexOf(".") + 1);
  return {
    kind: "step",
    key,
    quantity: step,
    value: Number(values[field]),
    step,
    lineOf,
    checks: keyLine !== undefined && isValue(foundBy) ? [foundFor(foundBy, { line: keyLine })] : [],
  };
}

/** A blank cell that was named: what is written there later may choose other tables. */
function leftBlank(key: string, name: string, origin: Origin): GivenLine {
  const quantity = { label: name, symbol: name, unit: "" };
  const link: GivenLink = { kind: "default", origin };
  return givenLine(key, quantity, "not given", link);
}

/** A number written later into a blank cell of a list has no place in the formulas. */
function listLength({ key, parameter, cells, ranges }: UsedArgument): GivenLine[] {
  const fromCells = cells.filter(({ origin }) => origin.kind === "cell");
  const numbers = fromCells.filter(({ value }) => typeof value === "number");
  const count = numbers.length;
  if (parameter.kind !== "numbers" || count === fromCells.length) return [];
  const own = `${argumentKey(key, 0)}.count`;
  const label = `${parameter.name}, numbers in the cells`;
  const native: Native = [
    "COUNT(",
    ...ranges.flatMap((cell, index) => (index > 0 ? [",", { cell }] : [{ cell }])),
    ")",
  ];
  const line = givenLine(own, { label, symbol: "", unit: "1" }, count, {
    kind: "native",
    native,
  });
  return [{ ...line, checks: [foundFor(count, { line: own })] }];
}

function otherArguments({ used }: CallAnswer, claimed: ReadonlySet<string>): GivenLine[] {
  return used
    .filter(({ parameter }) => parameter.kind !== "cells")
    .flatMap((argument) => [...listLength(argument), ...unclaimed(argument)]);

  function unclaimed({ key, parameter, cells }: UsedArgument): GivenLine[] {
    return cells.flatMap(({ value, origin }, index): GivenLine[] => {
      const own = argumentKey(key, index);
      if (claimed.has(own)) return [];
      const unclear = value === 0 && !isZeroReal(parameter);
      if (!isValue(value) || value === "" || unclear)
        return parameter.optional && cells.length === 1
          ? [leftBlank(own, parameter.name, origin)]
          : [];
      const quantity = {
        label: parameter.name,
        symbol: parameter.name,
        unit: typeof value === "number" ? parameter.unit : "",
      };
      const link: GivenLink = { kind: "linked", origin, perUnit: 1 };
      const line = givenLine(own, quantity, value, link);
      const isTyped = placeOf(origin) === undefined;
      return typeof value === "number" && !isTyped
        ? [{ ...line, checks: [foundFor(value, { line: own })] }]
        : [line];
    });
  }
}
