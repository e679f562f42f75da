import assert from "node:assert/strict";

/**
 * `actual` must round to the number a source printed. `printed` is typed exactly as it stands there, trailing
 * zeros too: its last digit sets the tolerance, so nobody chooses one.
 */
export function assertPrinted(actual: number, printed: string): void {
  const [mantissa = "", exponent = "0"] = printed.toLowerCase().split("e");
  const decimals = (mantissa.split(".")[1] ?? "").length;
  const halfLastDigit = 0.5 * 10 ** (Number(exponent) - decimals);
  const error = Math.abs(actual - Number(printed));
  assert.ok(error <= halfLastDigit * (1 + 1e-9), `computed ${actual}, printed ${printed}`);
}
