/** What the view asks for, and the request that the answers make. Every figure is the user's; those it starts from are invented. */
import { evaluate } from "../../functions/downfeed.js";
import { INSULATION_NAMES } from "../../src/conductors/insulations.js";
import type {
  CableMake,
  CableOption,
  SupplyOption,
  TradeRequest,
} from "../../src/tradeoffs/trade-request.js";
import { typedNumber } from "../words/shown-numbers.js";
import { tradeWords } from "../words/trade-words.js";

export interface TradeField {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  /** What stands in it at first. */
  readonly start: string;
  /** May be left empty: not a limit. */
  readonly optional?: true;
  /** Several numbers with blanks or semicolons between them. */
  readonly list?: true;
  /** One of these, instead of what is typed. */
  readonly choices?: readonly string[];
}

export interface TradeFieldGroup {
  readonly title: string;
  readonly fields: readonly TradeField[];
}

const said = tradeWords;

const field = (
  key: keyof typeof said.fields,
  unit: string,
  start: string,
  more: Pick<TradeField, "optional" | "list" | "choices"> = {},
): TradeField => ({ key, label: said.fields[key], unit, start, ...more });

export const TRADE_FIELDS: readonly TradeFieldGroup[] = [
  {
    title: said.groups.job,
    fields: [
      field("light", "W", "150"),
      field("nominal", "W", "1500"),
      field("peak", "W", "2400"),
      field("lowest", "V", "36"),
      field("highest", "V", "58"),
      field("length", "m", "300"),
    ],
  },
  {
    title: said.groups.distribution,
    fields: [
      field("voltages", "V", "120 240 400 600 800", {
        list: true,
      }),
      field("below", "%", "5"),
      field("above", "%", "5"),
      field("sag", "%", "1"),
    ],
  },
  {
    title: said.groups.cable,
    fields: [
      field("sizes", "mm²", "0.75 1 1.5 2.5 4 6 10 16 25 35", {
        list: true,
      }),
      field("build", "IEC 60228", "class 2", {
        choices: ["class 1", "class 2", "class 5", "class 5 tinned"],
      }),
      field("hot", "°C", "70"),
      field("ambient", "°C", "35"),
      field("insulation", "", "PVC", {
        choices: INSULATION_NAMES,
      }),
      field("jacket", "mm", "1"),
      field("other", "kg/m", "0.08"),
      field("copperPrice", said.perMetreAndArea, "0.25"),
      field("aluminiumSizes", "mm²", "", {
        list: true,
        optional: true,
      }),
      field("aluminiumPrice", said.perMetreAndArea, "0.1"),
      field("basePrice", said.perMetre, "1.5"),
    ],
  },
  {
    title: said.groups.stages,
    fields: [
      field("mostSteps", "1", "20"),
      field("stages", "1", "1"),
      field("units", "1", "4"),
      field("rated", "W", "1200"),
      field("droop", "%", "1.5"),
      field("noLoad", "%", "0.6"),
      field("tolerance", "%", "1"),
      field("unitMass", "kg", "0.9"),
      field("unitPrice", "", "140"),
    ],
  },
  {
    title: said.groups.limits,
    fields: [
      field("bandLimit", "V", "60", {
        optional: true,
      }),
      field("distributionLimit", "V", "", {
        optional: true,
      }),
      field("dropLimit", "%", "8", {
        optional: true,
      }),
      field("massLimit", "kg", "", { optional: true }),
      field("costLimit", "", "", { optional: true }),
    ],
  },
  {
    title: said.groups.energy,
    fields: [
      field("hours", "h", "4000"),
      field("energyPrice", said.perKwh, "0.25"),
      field("years", "1", "10"),
      field("discount", "%", "5"),
    ],
  },
];

/** Texts of all fields as they stand at first, by key. */
export const startTexts: ReadonlyMap<string, string> = new Map(
  TRADE_FIELDS.flatMap(({ fields }) => fields.map(({ key, start }) => [key, start] as const)),
);

/** Larger ratios are hardly built, and the pairs of two stages in line grow with the square. */
const MOST_STEPS = 100;
const MOST_IN_PARALLEL = 64;

/** Stranding makes a conductor wider than solid metal of its area. Common practice, no source. */
const STRANDED_WIDTH = 1.15;

/** A field that does not hold what it should. */
export class TradeFieldError extends Error {
  override readonly name = "TradeFieldError";

  constructor(
    readonly key: string,
    message: string,
  ) {
    super(message);
  }
}

/** @throws {TradeFieldError} naming the field. */
export function tradeRequest(texts: ReadonlyMap<string, string>): TradeRequest {
  const fields = TRADE_FIELDS.flatMap((group) => group.fields);
  const labelOf = (key: string) => fields.find((one) => one.key === key)?.label ?? key;
  const parsed = (key: string, text: string): number => {
    const value = typedNumber(text);
    if (typeof value !== "number")
      throw new TradeFieldError(key, said.noNumber(labelOf(key), text));
    return value;
  };
  const number = (key: string) => parsed(key, texts.get(key) ?? "");
  const optional = (key: string) => {
    const text = (texts.get(key) ?? "").trim();
    return text === "" ? undefined : parsed(key, text);
  };
  const numbers = (key: string) =>
    (texts.get(key) ?? "")
      .split(/[\s;]+/)
      .filter((part) => part !== "")
      .map((part) => parsed(key, part));
  const word = (key: string) => texts.get(key) ?? "";
  const part = (key: string) => number(key) / 100;
  const whole = (key: string, most: number): number => {
    const value = number(key);
    if (!(Number.isInteger(value) && value >= 1 && value <= most))
      throw new TradeFieldError(key, said.notWhole(labelOf(key), most, value));
    return value;
  };
  const peak = number("peak");
  const dropLimit = optional("dropLimit");
  return {
    load: {
      light: number("light"),
      nominal: number("nominal"),
      peak,
      lowestVoltage: number("lowest"),
      highestVoltage: number("highest"),
    },
    length: number("length"),
    supplies: numbers("voltages").map((voltage): SupplyOption => ({
      voltage,
      lowestVoltage: voltage * (1 - part("below")),
      highestVoltage: voltage * (1 + part("above")),
      resistance: (part("sag") * voltage ** 2) / peak,
    })),
    cables: cables(number, numbers, word),
    stepsDown: Array.from({ length: whole("mostSteps", MOST_STEPS) }, (_, index) => index + 1),
    mostStages: whole("stages", 2) === 2 ? 2 : 1,
    converter: {
      ratedPower: number("rated"),
      droop: part("droop"),
      noLoadLoss: part("noLoad"),
      tolerance: part("tolerance"),
      mass: number("unitMass"),
      price: number("unitPrice"),
    },
    mostInParallel: whole("units", MOST_IN_PARALLEL),
    energy: {
      hoursPerYear: number("hours"),
      pricePerKwh: number("energyPrice"),
      presentWorthFactor: found(
        "discount",
        "PRESENT_COST",
        1,
        1,
        number("years"),
        part("discount"),
      ),
    },
    limits: {
      loadBand: optional("bandLimit"),
      distributionBand: optional("distributionLimit"),
      drop: dropLimit === undefined ? undefined : dropLimit / 100,
      mass: optional("massLimit"),
      cost: optional("costLimit"),
    },
  };
}

/** Side by side in one jacket. */
export const LOADED_CORES = 2;

/** With the figures that the cell functions give for them: what a budget of the candidate will say too. */
function cables(
  number: (key: string) => number,
  numbers: (key: string) => readonly number[],
  word: (key: string) => string,
): CableOption[] {
  const wall = number("jacket");
  if (wall < 0) throw new TradeFieldError("jacket", said.noWall(wall));
  const materials = [
    ["copper", "sizes", "copperPrice"],
    ["aluminium", "aluminiumSizes", "aluminiumPrice"],
  ] as const;
  return materials.flatMap(([material, sizes, price]) =>
    numbers(sizes).map((mm2) => {
      const perMetre = number("basePrice") + number(price) * mm2;
      const make = cableMake(mm2, number, word);
      return cableOption(material, mm2, make, perMetre, sizes);
    }),
  );
}

/** @param sizes The field that is to blame where there is no such size. */
function cableOption(
  material: string,
  mm2: number,
  make: CableMake,
  pricePerMetre: number,
  sizes: string,
): CableOption {
  const size = `${mm2} mm²`;
  const { build, temperatureC, ambientC, outerDiameterMm } = make;
  return {
    material,
    size,
    make,
    resistancePerMetre: found(
      sizes,
      "CONDUCTOR_RESISTANCE",
      1,
      size,
      temperatureC,
      material,
      build,
      1,
      1,
    ),
    massPerMetre: found(sizes, "CONDUCTOR_MASS", 1, size, material, 1, 2, make.otherMassPerMetre),
    pricePerMetre,
    ampacity: found(
      "hot",
      "CONDUCTOR_AMPACITY",
      size,
      temperatureC,
      ambientC,
      outerDiameterMm,
      LOADED_CORES,
      make.insulation,
      "",
      "",
      "",
      material,
      build,
    ),
  };
}

function cableMake(
  mm2: number,
  number: (key: string) => number,
  word: (key: string) => string,
): CableMake {
  const wall = number("jacket");
  const core = STRANDED_WIDTH * Math.sqrt((4 * mm2) / Math.PI) + 2 * wall;
  return {
    build: word("build"),
    temperatureC: number("hot"),
    ambientC: number("ambient"),
    outerDiameterMm: LOADED_CORES * core + 2 * wall,
    insulation: word("insulation"),
    otherMassPerMetre: number("other"),
  };
}

function found(key: string, id: string, ...args: Parameters<typeof evaluate>[1]): number {
  const outcome = evaluate(id, args);
  if (outcome.ok) return Number(outcome.value);
  throw new TradeFieldError(key, `${id}: ${outcome.message}`);
}
