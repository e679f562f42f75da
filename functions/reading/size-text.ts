/** A conductor's size as people write it in a cell: a number of mm² of metal, or a name of a standard size. */
import type { ConductorSize } from "../../src/conductors/conductor-section.js";
import { InputError } from "../../src/quantities/errors.js";

const WAYS = 'a number of mm² of metal, or text like "2.5 mm²", "12 AWG", "2/0 AWG" or "250 kcmil"';

const GAUGE = String.raw`(\d{1,2}|[1-9]\d?/0|0{2,4})`;
const GAUGE_FIRST = new RegExp(`^${GAUGE} ?awg$`);
const GAUGE_LAST = new RegExp(`^awg ?${GAUGE}$`);
const METRIC = /^(\d+(?:[.,]\d+)?) ?mm(?:²|2|\^2)$/;
const KCMIL = /^(\d+(?:[.,]\d+)?) ?kcmil$/;

/**
 * A conductor size out of a cell: a number is an area of metal in mm², a text names a size.
 * @throws {InputError} naming `size` for text that is no size; whether a standard lists the size is the engine's to say.
 */
export function sizeFrom(value: number | string): ConductorSize {
  if (typeof value === "number") return { sizing: "bare metal", areaMm2: value };
  const written = value.trim();
  const text = written.toLowerCase().replace(/\s+/g, " ");
  const gauge = (GAUGE_FIRST.exec(text) ?? GAUGE_LAST.exec(text))?.[1];
  if (gauge !== undefined) return { sizing: "AWG", gauge: gaugeNumber(gauge), written };
  const nominal = METRIC.exec(text)?.[1];
  if (nominal !== undefined) {
    const nominalMm2 = decimal(nominal, value);
    return { sizing: "metric name", nominalMm2, written };
  }
  const kcmil = KCMIL.exec(text)?.[1];
  if (kcmil !== undefined) return { sizing: "kcmil", kcmil: decimal(kcmil, value), written };
  throw new InputError("size", value, WAYS);
}

/** 1/0 and 0 are gauge 0; 2/0 and 00 are −1; 4/0 and 0000 are −3. */
function gaugeNumber(text: string): number {
  const [count = ""] = text.split("/");
  if (text.includes("/")) return 1 - Number(count);
  return /^0+$/.test(text) ? 1 - text.length : Number(text);
}

/** A comma is the decimal sign; before three digits it may be a thousands separator, which would be a thousand times off. */
function decimal(text: string, written: string): number {
  if (/,\d{3}$/.test(text)) {
    throw new InputError(
      "size",
      written,
      "without a comma before three digits, which may be a decimal sign or a thousands separator",
    );
  }
  return Number(text.replace(",", "."));
}
