/** What to know of a battery's voltage before it is used. */
import type { Battery } from "./battery.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { openCircuitCurves } from "./open-circuit-curves.js";

export function batteryCaveats(battery: Battery, cellVoltage: Volts): Caveat[] {
  const { points, cite } = openCircuitCurves[battery.chemistry];
  const full = points.at(-1)![1];
  return [
    {
      code: "bands",
      field: "voltage",
      text: `for touch-voltage bands use the voltage at the end of charge, ${full} V a cell or more`,
      cite,
    },
    ...windowCaveats(battery, cellVoltage, full),
    ...chargeCaveats(battery),
  ];
}

function windowCaveats({ chemistry }: Battery, cellVoltage: Volts, full: Volts): Caveat[] {
  const { lowestVoltage, cite } = openCircuitCurves[chemistry];
  const about = (code: string, text: string): Caveat[] => [{ code, field: "voltage", text, cite }];
  if (cellVoltage < lowestVoltage)
    return about(
      "below-cell-window",
      `${figure(cellVoltage)} V a cell is below ${lowestVoltage} V, where a cell is usually switched off`,
    );
  if (cellVoltage > full)
    return about(
      "above-cell-window",
      `${figure(cellVoltage)} V a cell is above its full ${full} V`,
    );
  return [];
}

function chargeCaveats({ chemistry, stateOfCharge, current }: Battery): Caveat[] {
  const { steepBelow, readsLowBy, cite } = openCircuitCurves[chemistry];
  const given = (code: string, text: string): Caveat => ({
    code,
    field: "voltage",
    text,
    cite: "definition",
  });
  return [
    ...(stateOfCharge === 0 ? [given("empty", "empty: the state of charge is 0")] : []),
    ...(stateOfCharge > 0 && stateOfCharge < steepBelow
      ? [
          {
            code: "steep-curve",
            field: "voltage",
            text: `below ${steepBelow * 100} % of charge the curve is steep: read straight between its points it is up to ${readsLowBy} V a cell low`,
            cite,
          },
        ]
      : []),
    ...(current === 0 ? [given("at-rest", "at rest: no current given")] : []),
  ];
}
