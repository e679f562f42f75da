/**
 * How units on one bus share its load: each holds its set voltage behind a resistance, its own lead to the bus included.
 *
 * Left out: any sharing control, current limits, and the forward drop of whatever blocks reverse flow. The resistance may
 * be real or a control slope, so nothing is said here of heat.
 */
import { InputError, NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts } from "../quantities/units.js";
import { type LoadKind, busVoltage } from "./bus-voltage.js";

export const LOAD_KINDS = ["current", "power", "resistance"] as const satisfies readonly LoadKind[];

export const REVERSE_FLOWS = ["blocked", "allowed"] as const;
export type ReverseFlow = (typeof REVERSE_FLOWS)[number];

export interface ParallelConverters {
  readonly setVoltages: readonly Volts[];
  /** One for each set voltage, at its place. */
  readonly resistances: readonly Ohms[];
  /** A, W or Ω by its kind; 0 A and 0 W are no load. */
  readonly load: number;
  readonly loadKind: LoadKind;
  /** Blocked: no unit is fed by the others, as if an ideal diode stood in its lead. */
  readonly reverseFlow: ReverseFlow;
}

export interface ConverterShare {
  /** Out of the unit; below 0 where the others feed it. */
  readonly current: Amperes;
  /** Part of the sum of currents; undefined where there is no load, or one so small that rounding hides it. */
  readonly share: Fraction | undefined;
}

export interface ParallelShare {
  readonly busVoltage: Volts;
  /** In the order of the set voltages. */
  readonly converters: readonly ConverterShare[];
  readonly totalCurrent: Amperes;
  readonly loadCurrent: Amperes;
  /** What the sum of the units' currents leaves over of the load's. */
  readonly residual: Amperes;
  readonly caveats: readonly Caveat[];
}

/** Part of a current beyond which what the sum leaves over shows that rounding has eaten it. */
const LOST = 1e-6;

/** @throws {InputError | NoAnswerError} the latter where the units cannot carry the load at any bus voltage, and where resistances are too small for their currents to be told. */
export function parallelShare(parallel: ParallelConverters): ParallelShare {
  requireConverters(parallel);
  requireLoad(parallel);
  const { load, loadKind, reverseFlow } = parallel;

  const voltage = busVoltage(
    parallel.setVoltages.map((setVoltage, index) => ({
      setVoltage,
      resistance: parallel.resistances[index] ?? Number.NaN,
    })),
    { kind: loadKind, size: load },
    reverseFlow,
  );
  const currents = currentsAt(voltage, parallel);
  const totalCurrent = currents.reduce((sum, current) => sum + current);
  const loadCurrent = loadCurrentAt(voltage, parallel);
  const residual = totalCurrent - loadCurrent;
  requireTold(currents, residual);
  const isShared = load > 0 && Math.abs(residual) <= LOST * loadCurrent;
  const converters = currents.map((current) => ({
    current,
    share: isShared ? current / totalCurrent : undefined,
  }));

  return {
    busVoltage: voltage,
    converters,
    totalCurrent,
    loadCurrent,
    residual,
    caveats: notesOn(parallel, currents),
  };
}

/** Currents are differences of voltages over resistances: of very small ones only rounding is left. */
function requireTold(currents: readonly Amperes[], residual: Amperes): void {
  const greatest = Math.max(...currents.map(Math.abs));
  if (Math.abs(residual) > LOST * greatest)
    throw new NoAnswerError(
      "resistances",
      `too small for their currents to be told: added up they are ${figure(Math.abs(residual))} A off the load's; give each unit its lead to the bus too`,
    );
}

function currentsAt(
  bus: Volts,
  { setVoltages, resistances, reverseFlow }: ParallelConverters,
): Amperes[] {
  const least = reverseFlow === "blocked" ? 0 : -Infinity;
  return setVoltages.map((setVoltage, index) =>
    Math.max(least, (setVoltage - bus) / (resistances[index] ?? Number.NaN)),
  );
}

function loadCurrentAt(bus: Volts, { load, loadKind }: ParallelConverters): Amperes {
  switch (loadKind) {
    case "current":
      return load;
    case "power":
      return load / bus;
    case "resistance":
      return bus / load;
  }
}

function requireConverters({ setVoltages, resistances }: ParallelConverters): void {
  if (setVoltages.length === 0)
    throw new InputError("setVoltages", 0, "a list of one or more voltages");
  if (resistances.length !== setVoltages.length) {
    throw new InputError(
      "resistances",
      `${resistances.length} of them`,
      `as many as the set voltages, ${setVoltages.length}`,
    );
  }
  requireEachAbove("setVoltages", setVoltages);
  requireEachAbove("resistances", resistances);
}

function requireEachAbove(field: string, values: readonly number[]): void {
  values.forEach((value, index) => {
    if (!(value > 0 && Number.isFinite(value)))
      throw new InputError(field, value, `above 0 (unit ${index + 1})`);
  });
}

function requireLoad({ load, loadKind }: ParallelConverters): void {
  if (loadKind === "resistance") requireAbove("load", load, 0);
  else requireAtLeast("load", load, 0);
}

function notesOn(
  { load, reverseFlow }: ParallelConverters,
  currents: readonly Amperes[],
): Caveat[] {
  const caveats: Caveat[] = [];
  if (load === 0)
    caveats.push({
      code: "no-load",
      field: "load",
      text:
        reverseFlow === "allowed"
          ? "no load: currents circulate between the units only"
          : "no load: the bus rests at the highest set voltage",
      cite: "definition",
    });
  currents.forEach((current, index) => {
    if (current < 0)
      caveats.push({
        code: "fed-backwards",
        field: `current${index + 1}`,
        text: `unit ${index + 1} is fed backwards with ${figure(-current)} A`,
        cite: "parallel-generators",
      });
    if (current === 0 && reverseFlow === "blocked" && load > 0)
      caveats.push({
        code: "carries-nothing",
        field: `current${index + 1}`,
        text: `unit ${index + 1} carries nothing: its set voltage is not above the bus`,
        cite: "parallel-generators",
      });
  });
  return caveats;
}
