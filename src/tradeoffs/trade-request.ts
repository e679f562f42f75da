/** What a trade-off is asked between: the job, the options to combine, and the limits that a candidate must keep. */
import { InputError, requireAbove, requireAtLeast, requireWhole } from "../quantities/errors.js";
import type {
  Amperes,
  Celsius,
  Fraction,
  Kilograms,
  Metres,
  Ohms,
  OhmsPerMetre,
  Volts,
  Watts,
} from "../quantities/units.js";

/** The load at the far end, all of it together. */
export interface TradeLoad {
  readonly nominal: Watts;
  readonly light: Watts;
  readonly peak: Watts;
  readonly lowestVoltage: Volts;
  readonly highestVoltage: Volts;
}

/** A voltage to distribute at. */
export interface SupplyOption {
  readonly voltage: Volts;
  readonly lowestVoltage: Volts;
  readonly highestVoltage: Volts;
  readonly resistance: Ohms;
}

/** A cable of one material and size, with the figures that its conductors have at the temperature allowed to them. */
export interface CableOption {
  readonly material: string;
  /** As the cell functions read it: `2.5 mm²`. */
  readonly size: string;
  readonly make: CableMake;
  /** Resistance of one core at the temperature allowed to it. */
  readonly resistancePerMetre: OhmsPerMetre;
  /** Mass of the route, kg/m: both poles and all that is not conductor. */
  readonly massPerMetre: number;
  /** Price of the route, money/m. */
  readonly pricePerMetre: number;
  /** Current at which the conductor reaches the temperature allowed to it. */
  readonly ampacity: Amperes;
}

/** What a cable's figures rest on. The search does not read it; a budget of a candidate works them out from it anew. */
export interface CableMake {
  /** Build of the conductors, as the cell functions call it: `class 2`. */
  readonly build: string;
  /** Allowed to the conductors; they are counted this hot. */
  readonly temperatureC: Celsius;
  readonly ambientC: Celsius;
  readonly outerDiameterMm: number;
  readonly insulation: string;
  /** Mass of all on the route that is not conductor, kg/m. */
  readonly otherMassPerMetre: number;
}

/** One unit of a stage; every stage of a candidate is made of as many of them in parallel. */
export interface ConverterOption {
  readonly ratedPower: Watts;
  /** Part of the output voltage that droops at the rated current. */
  readonly droop: Fraction;
  /** What it draws at no load, as a part of its rated power. */
  readonly noLoadLoss: Fraction;
  /** ± part of its ratio. */
  readonly tolerance: Fraction;
  readonly mass: Kilograms;
  /** In money. */
  readonly price: number;
}

/** What lost energy costs over the years that count. */
export interface EnergyPrice {
  readonly hoursPerYear: number;
  /** In money. */
  readonly pricePerKwh: number;
  /** Years' worth of payments at their present value. */
  readonly presentWorthFactor: number;
}

/** Not given: not a limit. */
export interface TradeLimits {
  /** Highest voltage at the load with no load, by the touch-voltage band wanted there. */
  readonly loadBand: Volts | undefined;
  /** Highest distribution voltage, by the band allowed along the route. */
  readonly distributionBand: Volts | undefined;
  /** Part of the voltage at its near end that the cable may drop at peak load on the lowest supply. */
  readonly drop: Fraction | undefined;
  readonly mass: Kilograms | undefined;
  /** In money. */
  readonly cost: number | undefined;
}

export interface TradeRequest {
  readonly load: TradeLoad;
  /** The route, one way. */
  readonly length: Metres;
  readonly supplies: readonly SupplyOption[];
  readonly cables: readonly CableOption[];
  /** Steps down of one stage: 8 is the ratio 1/8. */
  readonly stepsDown: readonly number[];
  readonly mostStages: 1 | 2;
  readonly converter: ConverterOption;
  /** Units in parallel that are tried: 1 to this. */
  readonly mostInParallel: number;
  readonly energy: EnergyPrice | undefined;
  readonly limits: TradeLimits;
}

/** A ratio further off than this is no fixed ratio. */
const MOST_TOLERANCE = 0.2;

/** @throws {InputError} naming a field, `load.peak`. */
export function requireTradeRequest(request: TradeRequest): void {
  const { load, converter, energy } = request;
  requireAbove("length", request.length, 0);
  requireAbove("load.nominal", load.nominal, 0);
  requireAtLeast("load.light", load.light, 0);
  requireAtLeast("load.peak", load.peak, load.nominal);
  requireAbove("load.lowestVoltage", load.lowestVoltage, 0);
  requireAbove("load.highestVoltage", load.highestVoltage, load.lowestVoltage);
  for (const list of ["supplies", "cables", "stepsDown"] as const)
    if (request[list].length === 0) throw new InputError(list, null, "one option or more");
  for (const supply of request.supplies) requireSupply(supply);
  for (const cable of request.cables) requireCable(cable);
  for (const step of request.stepsDown) requireAbove("stepsDown", step, 0);
  requireWhole("mostUnits", request.mostInParallel, 1);
  requireAbove("converter.ratedPower", converter.ratedPower, 0);
  requireAtLeast("converter.droop", converter.droop, 0);
  requireAtLeast("converter.noLoadLoss", converter.noLoadLoss, 0);
  if (!(converter.tolerance >= 0 && converter.tolerance <= MOST_TOLERANCE))
    throw new InputError(
      "converter.tolerance",
      converter.tolerance,
      `0 to ${MOST_TOLERANCE}, a fraction`,
    );
  requireAtLeast("converter.mass", converter.mass, 0);
  requireAtLeast("converter.price", converter.price, 0);
  for (const [name, limit] of Object.entries(request.limits))
    if (limit !== undefined) requireAbove(`limits.${name}`, limit, 0);
  if (energy) {
    requireAtLeast("energy.hoursPerYear", energy.hoursPerYear, 0);
    requireAtLeast("energy.pricePerKwh", energy.pricePerKwh, 0);
    requireAtLeast("energy.presentWorthFactor", energy.presentWorthFactor, 0);
  }
}

function requireSupply(supply: SupplyOption): void {
  const { voltage, lowestVoltage, highestVoltage, resistance } = supply;
  requireAbove("supplies.lowestVoltage", lowestVoltage, 0);
  requireAtLeast("supplies.voltage", voltage, lowestVoltage);
  requireAtLeast("supplies.highestVoltage", highestVoltage, voltage);
  requireAtLeast("supplies.resistance", resistance, 0);
}

function requireCable(cable: CableOption): void {
  requireAbove("cables.resistancePerMetre", cable.resistancePerMetre, 0);
  requireAtLeast("cables.massPerMetre", cable.massPerMetre, 0);
  requireAtLeast("cables.pricePerMetre", cable.pricePerMetre, 0);
  requireAbove("cables.ampacity", cable.ampacity, 0);
}
