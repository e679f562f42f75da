/** How a voltage against a limit is written: numbers are never rounded down, so that none looks lower than it is. */
import type { Volts } from "../quantities/units.js";
import { type Boundary, isWithin, type LimitCheck, type RippleFreeCheck } from "./limit-check.js";
import type { TouchCondition, TouchFramework, VoltageKind } from "./touch-bands.js";

/** Products such as 440 / 8 · 1.02 miss their exact value by some 1e-16; that does not round up. */
const ARITHMETIC_NOISE = 1e-12;

/**
 * Rounded up to hundredths, one decimal where that says it all: `48.0 V`, `60.04 V`.
 * @param below A limit that the number is below and must not reach by being rounded.
 */
export function voltsText(volts: Volts, below = Infinity): string {
  let decimals = 2;
  while (decimals < 15 && Number(roundedUp(volts, decimals)) >= below) decimals++;
  return `${roundedUp(volts, decimals).replace(/(\.\d)0$/, "$1")} V`;
}

function roundedUp(value: number, decimals: number): string {
  const scale = 10 ** decimals;
  const steps = Math.ceil(value * scale * (1 - ARITHMETIC_NOISE));
  return (steps / scale).toFixed(decimals);
}

/**
 * `48.0 V ≤ 60 V dc`, `75.0 V > 60 V, ≤ 120 V dc`, `400.0 V > 120 V dc`.
 * @param checks Of the bands from the lowest up to the one that holds, or to the last that has a limit.
 */
export function relationText(
  voltage: Volts,
  checks: readonly (LimitCheck & { readonly band: string })[],
  framework: TouchFramework,
  kind: VoltageKind,
  condition: TouchCondition,
): string {
  const last = checks.at(-1);
  if (!last) return voltsText(voltage);
  const shown = last.within ? checks.slice(-2) : [last];
  const relations = shown.map((check) => relationOf(check, framework.boundary, check.band));
  const subject = subjectText(voltage, last, framework.boundary);
  const unit = last.rule === "sum" ? "" : ` ${kind}${placeText(framework, condition)}`;
  return `${subject} ${relations.join(", ")}${unit}`;
}

/** Said only where a framework tells wet from dry. */
function placeText(framework: TouchFramework, condition: TouchCondition) {
  const tells = framework.bands.some(({ limits }) => limits?.dc.wet !== undefined);
  return tells ? ` ${condition}` : "";
}

function subjectText(voltage: Volts, check: LimitCheck, boundary: Boundary): string {
  const strictly = check.within && boundary === "exclusive";
  const volts = voltsText(voltage, strictly && check.rule === "plain" ? check.limit : Infinity);
  switch (check.rule) {
    case "plain":
      return volts;
    case "sum":
      return `${volts} dc with ripple of ${voltsText(check.peak)} peak: sum`;
    case "ripple-free":
      return `${volts}, ${voltsText(check.highest)} at the peaks,`;
    case "peak":
      return `${voltsText(check.highest, strictly ? check.dcLimit : Infinity)} at the peaks`;
  }
}

function relationOf(check: LimitCheck, boundary: Boundary, band: string): string {
  const sign = signOf(check.within, boundary);
  switch (check.rule) {
    case "plain":
      return `${sign} ${check.limit} V`;
    case "sum":
      return `${roundedUp(check.sum, 3)} ${sign} 1 of ${band}`;
    case "ripple-free":
      return rippleFreeRelation(check, sign);
    case "peak":
      return `${sign} ${check.dcLimit} V`;
  }
}

function rippleFreeRelation(check: RippleFreeCheck, sign: string): string {
  const { dcLimit, highest, highestLimit } = check;
  if (highestLimit === undefined) return `${sign} ${dcLimit} V`;
  if (check.within) return `≤ ${dcLimit} V (peaks ≤ ${highestLimit} V)`;
  return isWithin(highest, highestLimit) ? `> ${dcLimit} V` : `peaks > ${highestLimit} V`;
}

function signOf(within: boolean, boundary: Boundary): string {
  if (boundary === "inclusive") return within ? "≤" : ">";
  return within ? "<" : "≥";
}
