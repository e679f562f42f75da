/** Figures whose change may mend a failed check: by which steps each goes, and how a change is told. */
import type { ConductorChoice } from "../../conductors/conductor-build.js";
import { conductor } from "../../conductors/conductor.js";
import {
  conductorSection,
  type ConductorSize,
  sizeText,
} from "../../conductors/conductor-section.js";
import { SERIES_SIZES } from "../../conductors/conductor-size-choice.js";
import type { FeedFigure } from "../../network/feed-columns.js";
import type { SolvedRow } from "../../network/feed-row.js";
import { cornerRows } from "../../network/feed-worst.js";
import { FUSE_RATINGS } from "../../protection/fuse-rating.js";
import { NoAnswerError } from "../../quantities/errors.js";
import { figure } from "../../quantities/figures.js";
import { type ChangedValue, movesFeed } from "./changed-feed.js";
import type { Change, Figure, Finding } from "../check.js";
import type { DetailFigure } from "../judged-feed.js";
import type { Place } from "../place.js";
import type { FoundExtreme } from "../tree-context.js";
import { typedFigure } from "./typed-figure.js";

/** A part in words: 12.7 %. */
export function percent(part: number): string {
  return `${figure(part * 100)} %`;
}

/** `Set Size of Point cable to 16 mm²: drop 4 %` */
export function figureChange(changed: Figure, step: number, found: Finding): Change {
  const { place, field } = changed;
  const isTold = movesFeed(place, field) || field === "isolation";
  const then = isTold ? found.comesTo?.() : undefined;
  return {
    text: [
      `Set ${place.said(field)} of ${place.holderOf(field)} to ${changed.textAt(step)}`,
      ...(then === undefined ? [] : [`: ${then}`]),
      changed.cost?.(step) ?? "",
    ].join(""),
    at: place,
    field,
  };
}

/** The next larger standard sizes of a conductor that its build is made in. */
function largerSizes(choice: ConductorChoice): readonly ConductorSize[] {
  const { sizing } = choice.size;
  const series = sizing === "AWG" || sizing === "kcmil" ? "AWG" : "metric";
  const { area } = conductorSection(choice.size);
  return SERIES_SIZES[series]
    .map((size): ConductorSize =>
      sizing === "bare metal" && size.sizing === "metric name"
        ? { sizing, areaMm2: size.nominalMm2 }
        : size,
    )
    .filter((size) => conductorSection(size).area > area && isMade({ ...choice, size }));
}

function isMade(choice: ConductorChoice): boolean {
  try {
    conductor(choice);
    return true;
  } catch (error) {
    // A size that the build is not made in.
    if (error instanceof NoAnswerError) return false;
    throw error;
  }
}

/** Larger sizes of each cable whose ohms come of its size. */
export function sizesOf(cables: readonly Place[]): Figure[] {
  return cables.filter(hasSize).map((cable): Figure => {
    const sizes = largerSizes(cable.conductor);
    const metal = conductorSection(cable.details.size!).area;
    const size = (step: number) => sizes[step]!;
    const more = (step: number) => conductorSection(size(step)).area - metal;
    const cores = cable.cores * cable.inParallel * (cable.figure("length") ?? 1);
    return {
      place: cable,
      field: "size",
      steps: sizes.length,
      valueAt: (step) => ({ field: "size", to: size(step) }),
      textAt: (step) => sizeText(size(step)),
      amount: (step) => more(step) * cores,
      price: (step) => instead(cable, size(step), "price"),
      cost: (step) => added(cable, (told) => instead(cable, size(step), told)),
    };
  });
}

function hasSize(cable: Place): boolean {
  return cable.details.size !== undefined && cable.figure("corePerMetre") === undefined;
}

/** Cables or units side by side beyond those there are, that are tried: as many again, and at least so many. */
const MORE_IN_PARALLEL = 3;

export function moreInParallel(places: readonly Place[]): Figure[] {
  return places.map((place): Figure => {
    const own = place.inParallel;
    const more = (step: number, told: Told) => {
      const all = place.figure(told);
      return all && (all * (step + 1)) / own;
    };
    return {
      place,
      field: "inParallel",
      steps: Math.max(MORE_IN_PARALLEL, own),
      valueAt: (step) => ({ field: "inParallel", to: own + step + 1 }),
      textAt: (step) => `${own + step + 1}`,
      amount: (step) => (step + 1) / own,
      price: (step) => more(step, "price"),
      cost: (step) => added(place, (told) => more(step, told)),
    };
  });
}

type PlainField = FeedFigure | DetailFigure;

/** Numbers of three digits in one row: 100 is the first of 1 to 10, 999 the last. */
const DIGITS = 900;

function threeDigits(index: number): number {
  const power = Math.floor(index / DIGITS);
  return Number(`${index - power * DIGITS + 100}e${power}`);
}

/** The last of them that is no more than the value, or the first that is no less. */
function indexOf(value: number, side: "below" | "above"): number {
  const power = Math.floor(Math.log10(value)) - 2;
  const digits = value / 10 ** power;
  const whole = side === "below" ? Math.floor(digits + 1e-9) : Math.ceil(digits - 1e-9);
  return power * DIGITS + whole - 100;
}

/** How far a figure may go, as a multiple or a part of what it is. */
export const FAR = {
  other: 10,
  voltage: 2,
  load: 100,
  capacitance: 10_000,
  breaking: 1000,
  ripple: 1000,
  time: 1000,
} as const;

interface Wording {
  readonly times?: number;
  /** Behind `or more`: `, dc`. */
  readonly note?: string;
}

/** More of a figure that is given, in the three digits that are printed. */
export function more(places: readonly Place[], field: PlainField, wording: Wording = {}): Figure[] {
  return places.flatMap((place) => threeDigitFigure(place, field, 1, wording));
}

export function less(places: readonly Place[], field: PlainField, wording: Wording = {}): Figure[] {
  return places.flatMap((place) => threeDigitFigure(place, field, -1, wording));
}

function threeDigitFigure(
  place: Place,
  field: PlainField,
  towards: 1 | -1,
  { times = FAR.other, note = "" }: Wording,
): Figure[] {
  const given = place.figure(field);
  if (given === undefined || !(given > 0)) return [];
  const { fromSi, inSi, unit, isInverse } = typedFigure(place, field);
  const way = isInverse ? -towards : towards;
  const own = indexOf(fromSi(given), way > 0 ? "below" : "above");
  const typed = (step: number) => threeDigits(own + way * (step + 1));
  const behind = [...(unit === "" ? [] : [unit]), way > 0 ? "or more" : "or less"].join(" ");
  return [
    {
      place,
      field,
      steps: Math.round(DIGITS * Math.log10(times)),
      valueAt: (step) => ({ field, to: inSi(typed(step)) }),
      textAt: (step) => `${figure(typed(step))} ${behind}${note}`,
      amount: (step) => Math.abs(Math.log(inSi(typed(step)) / given)),
    },
  ];
}

/** Where more of a row's rated current is to be typed: a cable that its heat balance rates has none. */
export function ratingField(place: Place): "ratedCurrent" | "size" {
  return place.isRatedByHeat ? "size" : "ratedCurrent";
}

export function moreRated(place: Place): Figure[] {
  return place.isRatedByHeat ? sizesOf([place]) : more([place], "ratedCurrent");
}

/** Whole degrees that a temperature may go. */
const DEGREES = 60;

export function degrees(place: Place, field: DetailFigure, towards: "more" | "less"): Figure[] {
  const given = place.figure(field);
  if (given === undefined) return [];
  const up = towards === "more";
  const at = (step: number) => (up ? Math.floor(given) + step + 1 : Math.ceil(given) - step - 1);
  return [
    {
      place,
      field,
      steps: DEGREES,
      valueAt: (step) => ({ field, to: at(step) }),
      textAt: (step) => `${at(step)} °C or ${towards}`,
      amount: (step) => Math.abs(at(step) - given),
    },
  ];
}

/** The next ratings that fuses are made in. */
export function fuseRatings(
  fuse: Place,
  towards: "more" | "less",
  bears: (rating: number) => boolean,
): Figure[] {
  const own = fuse.figure("ratedCurrent");
  if (own === undefined) return [];
  const made = FUSE_RATINGS["as made"].filter(bears);
  const ratings =
    towards === "more"
      ? made.filter((rating) => rating > own)
      : made.filter((rating) => rating < own).reverse();
  return [
    {
      place: fuse,
      field: "ratedCurrent",
      steps: ratings.length,
      valueAt: (step) => ({ field: "ratedCurrent", to: ratings[step]! }),
      textAt: (step) => `${ratings[step]} A`,
      amount: (step) => Math.abs(Math.log(ratings[step]! / own)),
    },
  ];
}

/** A word that stands for a fact: it mends only what is so. */
export function ifItIs(place: Place, change: ChangedValue, words: string): Figure {
  return {
    place,
    field: change.field,
    steps: 1,
    valueAt: () => change,
    textAt: () => `${words}, if it is`,
    amount: () => 0,
  };
}

/** Cables between the root of the tree and the row, which is among them. */
export function cablesUpTo(place: Place): Place[] {
  const cables: Place[] = [];
  for (let row = place.row; row >= 0; row = place.tree.topology.parent[row]!)
    if (place.at(row).isCable) cables.push(place.at(row));
  return cables;
}

/** Larger sizes of cables, or else more of them side by side. */
export function thickerCables(cables: readonly Place[]): readonly (readonly Figure[])[] {
  return [sizesOf(cables), moreInParallel(cables)];
}

/** Loads of a row that are tried, the largest first. */
const LARGEST_LOADS = 4;

/** The largest nominal and peak loads at a row and behind it, that are to be smaller. */
export function lessLoad(place: Place): Figure[] {
  const { tree, row } = place;
  const loads = [...tree.source.keys()]
    .filter((at) => tree.isFedBy(at, row))
    .map((at) => place.at(at))
    .filter(({ kindName }) => kindName === "power load" || kindName === "current load")
    .sort((one, other) => most(other) - most(one))
    .slice(0, LARGEST_LOADS);
  return LOAD_FIELDS.flatMap((field) => less(loads, field, { times: FAR.load }));
}

const LOAD_FIELDS = ["load", "peakLoad"] as const;

function most(load: Place): number {
  return Math.max(...LOAD_FIELDS.map((field) => load.figure(field) ?? 0));
}

/** What holds the voltage of the row's level: set point or ratio of its stage, window of its supply. */
export function levelVoltage(place: Place, towards: "more" | "less"): Figure[] {
  const { source } = place;
  const { inFault } = source.kind;
  const turn = towards === "more" ? more : less;
  const times = { times: FAR.voltage };
  if (inFault === "source")
    return turn([source], towards === "more" ? "lowestVoltage" : "highestVoltage", times);
  return turn([source], inFault === "follows" ? "ratio" : "voltage", times);
}

/** Figures of a whole row that a change may be told by. */
const TOLD = ["price", "mass"] as const;

type Told = (typeof TOLD)[number];

/** What a cable of another size costs or weighs more, where the feed has one like it of that size. */
function instead(cable: Place, size: ConductorSize, told: Told): number | undefined {
  const length = cable.figure("length");
  const wanted = sizeText(size);
  const words = ["material", "build", "insulation"] as const;
  const isLike = (one: Place) =>
    sizeText(one.details.size!) === wanted &&
    one.figure("cores") === cable.figure("cores") &&
    words.every((word) => one.word(word) === cable.word(word));
  const perMetre = (of: Place) => {
    const [all, metres] = [of.figure(told), of.figure("length")];
    return all === undefined || metres === undefined ? undefined : all / (metres * of.inParallel);
  };
  const own = perMetre(cable);
  if (own === undefined || length === undefined) return undefined;
  const like = cable.tree
    .once("sized cables", () =>
      [...cable.tree.source.keys()]
        .map((row) => cable.at(row))
        .filter(({ isCable, details }) => isCable && details.size !== undefined),
    )
    .filter(isLike);
  const [other] = like.flatMap((one) => perMetre(one) ?? []);
  return other === undefined ? undefined : (other - own) * length * cable.inParallel;
}

function added(place: Place, more: (told: Told) => number | undefined): string {
  const shownUnits = { price: place.currency, mass: "kg" };
  return TOLD.flatMap((told) => {
    const value = more(told);
    if (value === undefined || value === 0) return [];
    return [`, ${value < 0 ? "−" : "+"} ${figure(Math.abs(value))} ${shownUnits[told]}`];
  }).join("");
}

/** A row in the case of an extreme; undefined where the feed does not carry it then. */
export function rowInCase({ at, columns }: FoundExtreme, row: number): SolvedRow | undefined {
  return cornerRows(columns, at)?.[row];
}
