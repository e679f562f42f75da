/** How the figures of an outage come about. */
import { frozenIn } from "../quantities/given-sources.js";
import { addLoading, addMargin, type CaseWorking, emptyWorking } from "./feed-cases-steps.js";
import type { Outage } from "./outage.js";

/** Working of an outage in which what is left has an operating point. */
export function outageWorking(outage: Outage): CaseWorking {
  const { feed, row, lowest, margin, loading } = outage;
  const out = feed.columns.item[row]!;
  const working = emptyWorking(`${out} out`);
  const { givens, steps, values } = working;
  if (lowest) {
    const item = feed.columns.item[lowest.row]!;
    const given = (name: string, label: string, symbol: string, value: number) => {
      givens[name] = { label, symbol, unit: "V" };
      values[name] = value;
    };
    given("voltage", `Voltage of ${item} with ${out} out`, "V₁", lowest.voltage);
    given("usual", `Voltage of ${item} with nothing out`, "V_u", lowest.usual);
    steps["lowestVoltage"] = {
      label: "Voltage of the load that falls most",
      symbol: "V_l",
      unit: "V",
      kind: "formula",
      formula: "voltage",
      cite: "definition",
    };
    steps["fallen"] = {
      label: "Fall, as a part of its usual voltage",
      symbol: "f",
      unit: "1",
      kind: "formula",
      formula: "1 - voltage / usual",
      cite: "definition",
    };
    values["lowestVoltage"] = lowest.voltage;
    values["fallen"] = 1 - lowest.value;
  }
  if (margin) addMargin(working, outage, margin, "leastMargin");
  if (loading) addLoading(working, outage, loading);
  return { ...working, frozen: frozenIn(Object.keys(givens), `solved with ${out} out`) };
}
