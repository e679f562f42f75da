/** A battery as a supply: what its voltage is worked out from. */
import type { Amperes, Fraction, Ohms } from "../quantities/units.js";
import type { Chemistry } from "./open-circuit-curves.js";

export interface Battery {
  readonly cellsInSeries: number;
  readonly stateOfCharge: Fraction;
  /** Current of the whole battery, discharge positive. */
  readonly current: Amperes;
  /** At that temperature, charge and end of life. */
  readonly cellResistance: Ohms;
  readonly chemistry: Chemistry;
  readonly strings: number;
}
