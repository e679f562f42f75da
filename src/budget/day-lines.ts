/** A day in up to three periods, as inputs: how long each lasts, what is drawn in it and what the supply gives. */
import { DAY_KEYS, type InputBlock } from "./budget-scenario.js";
import { amountOrNone, oneOf, price, word } from "./input-lines.js";

export interface DayPeriod {
  readonly name: string;
  /** "" stands empty. */
  readonly hours: number | "";
  readonly loads: "light" | "nominal" | "peak";
  readonly supply: "lowest" | "nominal" | "highest";
}

export function dayBlocks(
  periods: readonly DayPeriod[],
  energyPrice: number | "",
  basis = "assumed",
): InputBlock[] {
  const each = <T>(of: (period: DayPeriod) => T) => periods.map(of);
  return [
    {
      title: "A day",
      columns: periods.map((_, index) => `Period ${index + 1}`),
      lines: [
        word(
          DAY_KEYS.period,
          "Called",
          each(({ name }) => name),
          undefined,
          basis,
        ),
        amountOrNone(
          DAY_KEYS.hours,
          "Hours",
          each(({ hours }) => hours),
          "h",
          "0.0",
          `${basis}; 24 in all, 0 for a period that is not used`,
        ),
        {
          key: DAY_KEYS.loads,
          label: "Loads in that time",
          values: each(({ loads }) => loads),
          unit: "",
          basis:
            "light, nominal or peak; or a number, by which every nominal load is multiplied",
        },
        word(
          DAY_KEYS.supply,
          "Supply voltage in that time",
          each(({ supply }) => supply),
          oneOf(["lowest", "nominal", "highest"]),
          "choose; the lowest, nominal or highest that the supply may be",
        ),
      ],
    },
    {
      title: "Energy",
      columns: ["Value"],
      lines: [
        price(
          DAY_KEYS.price,
          "Price of energy",
          [energyPrice],
          "per kWh",
          "0.00",
          basis,
        ),
      ],
    },
  ];
}
