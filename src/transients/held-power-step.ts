/**
 * How far the voltage sags when a load that holds its power is switched on: resistance and inductance up to it, a
 * capacitor beside it. As the voltage sags the load draws more, so no closed form gives the deepest place; it is followed
 * step by step in time (the classical Runge-Kutta method), by L·di/dt = V₀ − R·i − v and C·dw/dt = i − P/v, where w is the
 * voltage inside the capacitor and v that of the load, the upper root of v = w + r·(i − P/v).
 *
 * In the plane of i and w a path does not cross itself, so lowest places that rise once rise for good, and the first is the
 * deepest; lowest places that fall once fall until the bus has collapsed. Two of them decide.
 *
 * Nothing has to be followed where rR ≥ Z², or r < R and R + r ≥ 2Z, with Z = √(L/C): the voltage then falls neither below
 * where it comes to rest nor below the step. With x for how far u = w + r·i is above rest, k for how far i is
 * below it and G ≥ 0 for the slope of the load's current over u,
 *   L·k′ = x(1 + rG) − Rk,  L·x′ = k(rR − Z²) − x(r + G(r² − Z²)),  from k = I, x = (R − r)·I on.
 * - r < R, r ≥ Z: x = 0 and k = 0 are only ever crossed upward.
 * - r < R, r < Z: so is k = 0, and k ≤ σx is kept where σ²(rR − Z²) + σ(R − r) − 1 + G(σ(Z² − r²) − r) ≥ 0, as it is for
 *   every G with σ = (R − r)/(2(Z² − rR)) or, where rR ≥ Z², with any large σ.
 * - r ≥ R, rR ≥ Z²: k ≥ −x/(r − R) is kept while x < 0, which therefore only rises, and then as above.
 */
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Coulombs, Seconds, Volts, Watts } from "../quantities/units.js";
import { IDEAL_NOTE, type SteppedLoad } from "./load-step-sag.js";

/** Its current step is what it draws at the voltage before the step. */
export interface HeldPowerStep extends SteppedLoad {
  /** Before the step. */
  readonly busVoltage: Volts;
}

interface Ends {
  readonly power: Watts;
  /** 4RP/V₀²; 1 at the most that arrives. */
  readonly restPart: number;
  /** Where it comes to rest, the upper root. */
  readonly restVoltage: Volts;
  /** 4rP/V₀². */
  readonly stepPart: number;
  /** At the step itself. */
  readonly stepVoltage: Volts;
}

/** What was counted on the way from the step to the deepest place. */
interface Followed {
  readonly deepestTime: Seconds;
  readonly lineCurrent: Amperes;
  /** ∫ i dt in the line. */
  readonly charge: Coulombs;
  /** ∫ i² dt in the line, A²s. */
  readonly lineSquares: number;
  /** ∫ (i − P/v)² dt in the capacitor, A²s. */
  readonly capacitorSquares: number;
  /** Inside the capacitor, behind its resistance. */
  readonly capacitorVoltage: Volts;
}

export type HeldPowerSag = Ends & {
  readonly lowestVoltage: Volts;
  readonly sag: Volts;
  readonly caveats: readonly Caveat[];
} & (
    ({ readonly deepest: "ringing" } & Followed) | { readonly deepest: "at rest" | "at the step" }
  );

/**
 * Sag of a bus when a load is switched on that holds its power.
 * @throws {InputError}; {NoAnswerError} where the bus collapses.
 */
export function heldPowerSag(load: HeldPowerStep): HeldPowerSag {
  const { busVoltage, capacitorResistance } = load;
  requireAbove("currentStep", load.currentStep, 0);
  requireAbove("resistance", load.resistance, 0);
  requireAbove("inductance", load.inductance, 0);
  requireAbove("capacitance", load.capacitance, 0);
  requireAtLeast("capacitorResistance", capacitorResistance, 0);
  requireAbove("busVoltage", busVoltage, 0);
  const ends = endsOf(load);
  const caveats = capacitorResistance === 0 ? [HELD_NOTE, IDEAL_NOTE] : [HELD_NOTE];
  const lowest = isDeepestAtAnEnd(load) ? undefined : deepestPlace(load, ends);
  const least = Math.min(ends.restVoltage, ends.stepVoltage);
  if (lowest && lowest.voltage < least)
    return {
      deepest: "ringing",
      ...ends,
      ...followed(lowest),
      lowestVoltage: lowest.voltage,
      sag: busVoltage - lowest.voltage,
      caveats,
    };
  const deepest = ends.stepVoltage < ends.restVoltage ? "at the step" : "at rest";
  const sag = busVoltage - least;
  return { deepest, ...ends, lowestVoltage: least, sag, caveats };
}

function endsOf(load: HeldPowerStep): Ends {
  const { currentStep, busVoltage, resistance, capacitorResistance } = load;
  const power = currentStep * busVoltage;
  const partOf = (behind: number) => (4 * behind * power) / busVoltage ** 2;
  const rootAt = (part: number) => (busVoltage * (1 + Math.sqrt(1 - part))) / 2;
  const restPart = partOf(resistance);
  const stepPart = partOf(capacitorResistance);
  if (restPart > 1)
    throw collapse(
      power,
      `at most V₀²/4R = ${figure(power / restPart)} W arrive behind ${figure(resistance)} Ω`,
    );
  if (stepPart > 1)
    throw collapse(
      power,
      `the capacitor gives at most V₀²/4r = ${figure(power / stepPart)} W at the step itself, behind its ${figure(capacitorResistance)} Ω`,
    );
  return {
    power,
    restPart,
    restVoltage: rootAt(restPart),
    stepPart,
    stepVoltage: rootAt(stepPart),
  };
}

function collapse(power: Watts, why: string): NoAnswerError {
  return new NoAnswerError(
    "currentStep",
    `the bus collapses when a load that holds ${figure(power)} W is switched on: ${why}`,
  );
}

function isDeepestAtAnEnd(load: HeldPowerStep): boolean {
  const { resistance, inductance, capacitance, capacitorResistance } = load;
  const waveSquare = inductance / capacitance;
  return (
    capacitorResistance * resistance >= waveSquare ||
    (capacitorResistance < resistance &&
      resistance + capacitorResistance >= 2 * Math.sqrt(waveSquare))
  );
}

/** Current of the line, voltage inside the capacitor, and what is counted: charge, squares in the line and the capacitor. */
type State = readonly [
  lineCurrent: number,
  capacitorVoltage: number,
  charge: number,
  lineSquares: number,
  capacitorSquares: number,
];

interface Moment {
  readonly time: Seconds;
  readonly state: State;
  readonly voltage: Volts;
  readonly rates: State;
  /** Slope of the load's voltage in time; only its sign is used. */
  readonly rise: number;
  /** Fastest rate of the circuit at this moment, 1/s. */
  readonly fastest: number;
}

/** A step of time in parts of the fastest rate: each error is some 1e-10 of what moves. */
const STEP = 0.01;

/** Enough for two swings many times over; only a circuit that does not ring and has far unlike times needs more. */
const MOST_STEPS = 200_000;

/** Part of the voltage before the step below which nothing holds its power. */
const COLLAPSED = 0.01;

/** Part of the voltage before the step that counts as none. */
const NEAR = 1e-9;

/** The first lowest place after the step; undefined where it comes to rest without one. */
function deepestPlace(load: HeldPowerStep, ends: Ends): Moment | undefined {
  const { busVoltage, resistance } = load;
  const { power, restVoltage } = ends;
  const near = NEAR * busVoltage;
  const restCurrent = power / restVoltage;
  let first: Moment | undefined;
  let here = momentAt(load, power, 0, [0, busVoltage, 0, 0, 0]);
  for (let count = 0; count < MOST_STEPS; count++) {
    if (!here || here.voltage < COLLAPSED * busVoltage)
      throw collapse(power, "it draws more and more as the voltage falls");
    const next = stepped(load, power, here, STEP / here.fastest);
    if (next && here.rise < 0 && next.rise >= 0) {
      const lowest = lowestBetween(load, power, here, next);
      if (first === undefined && Math.abs(restVoltage - lowest.voltage) <= near) return undefined;
      if (first !== undefined) {
        if (lowest.voltage > first.voltage) return first;
        throw collapse(power, "its swings grow");
      }
      first = lowest;
    }
    here = next;
    const off = Math.abs((here?.voltage ?? 0) - restVoltage);
    const currentOff = Math.abs((here?.state[0] ?? 0) - restCurrent);
    if (off <= near && currentOff * resistance <= near) return first;
  }
  throw new NoAnswerError(
    "capacitorResistance",
    `not followed to its end: (R + r)·C is too many times L/(R + r); it comes to rest at ${figure(restVoltage)} V`,
  );
}

/** Undefined where the load has no voltage at which to hold its power. */
function momentAt(
  load: HeldPowerStep,
  power: Watts,
  time: Seconds,
  state: State,
): Moment | undefined {
  const { busVoltage, resistance, inductance, capacitance } = load;
  const { capacitorResistance: behind } = load;
  const [lineCurrent, capacitorVoltage] = state;
  const held = capacitorVoltage + behind * lineCurrent;
  const under = held ** 2 - 4 * behind * power;
  if (!(held > 0 && under > 0)) return undefined;
  const voltage = (held + Math.sqrt(under)) / 2;
  const intoCapacitor = lineCurrent - power / voltage;
  const currentRate = (busVoltage - resistance * lineCurrent - voltage) / inductance;
  const capacitorRate = intoCapacitor / capacitance;
  // How much more the load draws for each volt that `held` falls.
  const slope = power / (voltage ** 2 - behind * power);
  return {
    time,
    state,
    voltage,
    rates: [currentRate, capacitorRate, lineCurrent, lineCurrent ** 2, intoCapacitor ** 2],
    rise: capacitorRate + behind * currentRate,
    fastest: Math.max(
      1 / Math.sqrt(inductance * capacitance),
      (resistance + behind + behind ** 2 * slope) / inductance,
      slope / capacitance,
    ),
  };
}

/** One step of the classical Runge-Kutta method. */
function stepped(
  load: HeldPowerStep,
  power: Watts,
  from: Moment,
  step: Seconds,
): Moment | undefined {
  const at = (part: number, rates: State) =>
    momentAt(load, power, from.time + part * step, moved(from.state, part * step, rates));
  const second = at(0.5, from.rates);
  const third = second && at(0.5, second.rates);
  const fourth = third && at(1, third.rates);
  if (!fourth) return undefined;
  return at(1, mean(from.rates, second.rates, third.rates, fourth.rates));
}

function moved(
  [i, w, charge, line, capacitor]: State,
  step: Seconds,
  [byI, byW, byCharge, byLine, byCapacitor]: State,
): State {
  return [
    i + step * byI,
    w + step * byW,
    charge + step * byCharge,
    line + step * byLine,
    capacitor + step * byCapacitor,
  ];
}

/** The middle ones count twice. */
function mean(first: State, second: State, third: State, last: State): State {
  const middle = moved(second, 1, third);
  const [i, w, charge, line, capacitor] = moved(moved(first, 1, last), 2, middle);
  return [i / 6, w / 6, charge / 6, line / 6, capacitor / 6];
}

/** Halving one step finds where the voltage turns; after 50 times nothing is left to halve. */
const HALVINGS = 50;

function lowestBetween(load: HeldPowerStep, power: Watts, from: Moment, until: Moment): Moment {
  let lowest = until;
  let [falling, rising] = [0, until.time - from.time];
  for (let count = 0; count < HALVINGS; count++) {
    const middle = (falling + rising) / 2;
    const moment = stepped(load, power, from, middle);
    if (!moment) throw collapse(power, "it draws more and more");
    lowest = moment;
    if (moment.rise < 0) falling = middle;
    else rising = middle;
  }
  return lowest;
}

function followed({ time, state }: Moment): Followed {
  const [lineCurrent, capacitorVoltage, charge, lineSquares, capacitorSquares] = state;
  return {
    deepestTime: time,
    lineCurrent,
    charge,
    lineSquares,
    capacitorSquares,
    capacitorVoltage,
  };
}

const HELD_NOTE: Caveat = {
  code: "held-power",
  field: "sag",
  text: "an ideal load that holds its power, switched on beside loads of constant current only: count another one that holds its power into the step",
  cite: "constant-power-stability",
};
