/** What the budget of a candidate assumes: the figures that it was searched with, each once, and what the search did not ask. */
import {
  COMMON_KEYS,
  type InputBlock,
  type InputLine,
} from "../../src/budget/budget-scenario.js";
import {
  amount,
  amountOrNone,
  anyIsolation,
  conductorBuild,
  conductorSize,
  conductorTemperature,
  numberFrom,
  oneOf,
  requirements,
  rippleLines,
  share,
  SOLVED_CASE,
  wholeFrom,
  word,
} from "../../src/budget/input-lines.js";
import { HEADROOM_ASKED } from "../../src/budget/protection-inputs.js";
import { INSULATION_NAMES } from "../../src/conductors/insulations.js";
import { FRAMEWORKS } from "../../src/safety/touch-bands.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeCandidate } from "../../src/tradeoffs/trade-space.js";

/** What a search does not ask and a budget has to know. */
export interface CandidatePlace {
  readonly framework: (typeof FRAMEWORKS)[number];
  readonly condition: "dry" | "wet";
}

// The same for every candidate, whatever its figures: by its texts a sheet is known again.
const ENTERED = "entered in the trade-off";
const NOT_ASKED = "not asked in the trade-off";

export function candidateInputs(
  request: TradeRequest,
  candidate: TradeCandidate,
  place: CandidatePlace,
): InputBlock[] {
  return [
    SOLVED_CASE,
    asked(request, place),
    supply(candidate),
    cable(request, candidate),
    steps(candidate),
    unit(request, candidate),
    {
      title: "Load before the margin",
      columns: ["Light", "Nominal", "Peak"],
      lines: [
        amountOrNone(
          "load",
          "Load",
          [request.load.light, request.load.nominal, request.load.peak],
          "W",
          "0",
          ENTERED,
        ),
      ],
    },
    {
      title: "Voltage that the load accepts",
      columns: ["Lowest", "Highest"],
      lines: [
        amount(
          "loadWindow",
          "Load",
          [request.load.lowestVoltage, request.load.highestVoltage],
          "V",
          "0.0",
          ENTERED,
        ),
      ],
    },
    ...energy(request),
    {
      title: "What the checks ask for",
      columns: ["Value"],
      lines: [HEADROOM_ASKED],
    },
  ];
}

/** Largest that the sheet takes for a drop limit, where the search had none. */
const NO_DROP_LIMIT = 0.5;

function asked(
  { limits }: TradeRequest,
  { framework, condition }: CandidatePlace,
): InputBlock {
  const block = requirements({
    framework,
    condition,
    conditionBasis: "chosen when the candidate was inserted",
    margin: 0,
    dropLimit: limits.drop ?? NO_DROP_LIMIT,
    altitude: 0,
    currency: "money",
  });
  const bases: Readonly<Record<string, string>> = {
    [COMMON_KEYS.margin]:
      "none, as in the trade-off: its loads are the whole of it",
    [COMMON_KEYS.dropLimit]: `${ENTERED}, or half where it had no limit`,
    [COMMON_KEYS.altitude]: `${NOT_ASKED}: sea level; enter the site's`,
    [COMMON_KEYS.currency]:
      "that of the prices entered in the trade-off; enter its name",
  };
  return { ...block, lines: block.lines.map((line) => rebased(line, bases)) };
}

function rebased(
  line: InputLine,
  bases: Readonly<Record<string, string>>,
): InputLine {
  return { ...line, basis: bases[line.key] ?? line.basis };
}

function supply({ supply: option }: TradeCandidate): InputBlock {
  const { lowestVoltage, voltage, highestVoltage } = option;
  return {
    title: "Supply voltage",
    columns: ["Lowest", "Nominal", "Highest"],
    lines: [
      amount(
        COMMON_KEYS.supplyVoltage,
        "Supply, open circuit",
        [lowestVoltage, voltage, highestVoltage],
        "V",
        "0.0",
        ENTERED,
      ),
    ],
  };
}

function cable(
  { length }: TradeRequest,
  { supply: { resistance }, cable: option }: TradeCandidate,
): InputBlock {
  const { make, material, size, pricePerMetre } = option;
  return {
    title: "Supply and cable",
    columns: ["Value"],
    lines: [
      amountOrNone(
        "supplyResistance",
        "Internal resistance of the supply",
        [resistance],
        "Ω",
        "0.000",
        `${ENTERED}, by its own drop at peak load`,
      ),
      ...rippleLines("supplyRipple", "the supply", [""], [""], NOT_ASKED),
      amount("length", "Route length, one way", [length], "m", "0.0", ENTERED),
      conductorSize("size", size),
      word(
        "material",
        "Material",
        [material],
        oneOf(["copper", "aluminium"]),
        ENTERED,
      ),
      conductorBuild("build", make.build),
      conductorTemperature(
        "temperature",
        make.temperatureC,
        `${ENTERED}; allowed to the conductors, and they are counted this hot`,
        "Conductor temperature allowed",
      ),
      ...surroundings(make),
      amountOrNone(
        "otherMass",
        "Mass that is not conductor",
        [make.otherMassPerMetre],
        "kg/m",
        "0.000",
        ENTERED,
      ),
      amountOrNone(
        "cablePrice",
        "Price of the cable",
        [pricePerMetre],
        "per m",
        "0.00",
        `${ENTERED}, by its size`,
      ),
    ],
  };
}

function surroundings(make: TradeCandidate["cable"]["make"]): InputLine[] {
  return [
    {
      key: "ambient",
      label: "Air around the cable",
      values: [make.ambientC],
      unit: "°C",
      basis: `${ENTERED}; still air, alone, out of the sun`,
      format: "0",
      allowed: numberFrom(-60, 250),
    },
    amount(
      "diameter",
      "Outer diameter, two cores in one jacket",
      [make.outerDiameterMm],
      "mm",
      "0.0",
      "worked out in the trade-off from the size and the walls",
    ),
    word(
      "insulation",
      "Insulation",
      [make.insulation],
      oneOf(INSULATION_NAMES),
      ENTERED,
    ),
  ];
}

/** A column for each stage in line. */
function steps({ arrangement }: TradeCandidate): InputBlock {
  return {
    title: "Fixed-ratio stages in line from the supply",
    columns: arrangement.length === 1 ? ["Value"] : ["First", "Second"],
    lines: [
      amount(
        "steps",
        "Steps the voltage down by",
        arrangement,
        "to 1",
        "0",
        "found by the trade-off",
      ),
      word(
        "isolation",
        "Isolation, input to output",
        arrangement.map(() => "none"),
        anyIsolation,
        `${NOT_ASKED}, and unknown counts as none; enter what the maker certifies`,
      ),
    ],
  };
}

function unit(
  { unit: one }: TradeRequest,
  { units }: TradeCandidate,
): InputBlock {
  const { ratedPower, droop, noLoadLoss, mass, price } = one;
  return {
    title: "One unit; every stage is made of such units",
    columns: ["Value"],
    lines: [
      {
        key: "unitCount",
        label: "Units in parallel, in each stage",
        values: [units],
        unit: "",
        basis: "found by the trade-off",
        format: "0",
        allowed: wholeFrom(1, 100),
      },
      amount(
        "ratedPower",
        "Rated power, at its stage's nominal output",
        [ratedPower],
        "W",
        "0",
        ENTERED,
      ),
      share(
        "droop",
        "Droop at its rating",
        [droop],
        numberFrom(0, 0.5),
        ENTERED,
      ),
      share(
        "noLoadLoss",
        "No-load loss, of its rating",
        [noLoadLoss],
        numberFrom(0, 0.5),
        ENTERED,
      ),
      tolerance(one.tolerance),
      amountOrNone("unitMass", "Mass", [mass], "kg", "0.00", ENTERED),
      amountOrNone("unitPrice", "Price", [price], "each", "0.00", ENTERED),
    ],
  };
}

/** In a feed table 0 is not given: an exact ratio is a word. */
function tolerance(of: number): InputLine {
  const label = "Tolerance of the ratio";
  const basis = `${ENTERED}; ± around the ratio, no load; or the word exact`;
  return of === 0
    ? word("tolerance", label, ["exact"], undefined, basis)
    : share("tolerance", label, [of], numberFrom(0.0001, 0.5), basis);
}

function energy({ energy: price }: TradeRequest): InputBlock[] {
  if (!price) return [];
  const { hoursPerYear, pricePerKwh, presentWorthFactor } = price;
  return [
    {
      title: "Lost energy",
      columns: ["Value"],
      lines: [
        amountOrNone(
          "hours",
          "Hours a year at nominal load",
          [hoursPerYear],
          "h",
          "0",
          ENTERED,
        ),
        amountOrNone(
          "energyPrice",
          "Price of energy",
          [pricePerKwh],
          "per kWh",
          "0.000",
          ENTERED,
        ),
        amountOrNone(
          "presentWorth",
          "Years that count, at their present worth",
          [presentWorthFactor],
          "years",
          "0.00",
          `${ENTERED}, by the years and the discount rate`,
        ),
      ],
    },
  ];
}
