/**
 * The longest times in which a fault to earth in a dc circuit has to be disconnected. [iec-60364-4-41-table-41-1]
 *
 * Where only a fault between the poles is computed, these times are the ones to ask for, but the loop of a fault to earth
 * through the protective conductor, and the second fault of a supply that is not earthed, are not computed.
 */
import { requireAbove } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import type { Seconds, Volts } from "../quantities/units.js";

/** Final: with socket-outlets up to 63 A, or fixed equipment only up to 32 A; any other circuit counts as distribution. */
export const DISCONNECTED_CIRCUITS = [
  "TN final",
  "TN distribution",
  "TT final",
  "TT distribution",
] as const;
export type DisconnectedCircuit = (typeof DISCONNECTED_CIRCUITS)[number];

export interface DisconnectionTime {
  /** Undefined where none is asked for against shock. */
  readonly time: Seconds | undefined;
  readonly caveats: readonly Caveat[];
}

interface Row {
  /** The row holds up to this voltage, itself included. */
  readonly upTo: Volts;
  readonly times: Readonly<Record<DisconnectedCircuit, Seconds>>;
}

/** Up to here disconnection may be asked for by heat, but not against shock. */
const NONE_UP_TO: Volts = 120;

const DISTRIBUTION = { "TN distribution": 5, "TT distribution": 1 } as const;

const ROWS: readonly Row[] = [
  { upTo: 230, times: { "TN final": 1, "TT final": 0.4, ...DISTRIBUTION } },
  { upTo: 400, times: { "TN final": 0.4, "TT final": 0.2, ...DISTRIBUTION } },
  {
    upTo: Infinity,
    times: { "TN final": 0.1, "TT final": 0.1, ...DISTRIBUTION },
  },
];

/**
 * @param voltage Nominal, from a pole to earth; of an unearthed supply the voltage between its poles is on the safe side.
 * @throws {InputError}
 */
export function disconnectionTime(voltage: Volts, circuit: DisconnectedCircuit): DisconnectionTime {
  requireAbove("voltage", voltage, 0);
  const row = ROWS.find(({ upTo }) => voltage <= upTo);
  return voltage <= NONE_UP_TO
    ? { time: undefined, caveats: [NONE_ASKED_NOTE, POLES_NOTE] }
    : { time: row?.times[circuit], caveats: [POLES_NOTE] };
}

const POLES_NOTE: Caveat = {
  code: "fault-between-poles",
  field: "time",
  text: "from memory, check it against the standard and the local code; a fault to earth through the protective conductor and a second fault of an unearthed supply have loops of their own, which are not computed",
  cite: "iec-60364-4-41-table-41-1",
};

const NONE_ASKED_NOTE: Caveat = {
  code: "none-asked",
  field: "time",
  text: `up to ${NONE_UP_TO} V dc no disconnection is asked for against shock; heat may ask for it`,
  cite: "iec-60364-4-41-table-41-1",
};

export const disconnectedGivens: QuantitiesOf<{ voltage: Volts }> = {
  voltage: { label: "Voltage", symbol: "U", unit: "V" },
};

export const disconnectionTimeSteps: StepsWith<"time"> = {
  time: {
    label: "Longest time to disconnection",
    symbol: "t",
    unit: "s",
    kind: "lookup",
    table: "IEC 60364-4-41, Table 41.1, 411.3.2.3 and 411.3.2.4",
    key: "voltage",
    cite: "iec-60364-4-41-table-41-1",
  },
};
