/** The limit of one band, as its framework publishes it. */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import type { Caveat, StepsOf } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import {
  type FrameworkName,
  type TouchBand,
  type TouchCondition,
  type TouchFramework,
  touchFrameworks,
  type VoltageKind,
} from "./touch-bands.js";

export interface BandQuestion {
  readonly framework: FrameworkName;
  /** A band's name. */
  readonly band: string;
  readonly condition: TouchCondition;
  readonly kind: VoltageKind;
}

export interface BandLimit {
  readonly limit: Volts;
  readonly clause: string;
  readonly caveats: readonly Caveat[];
}

/**
 * @throws {InputError} for a name that is no band of the framework.
 * @throws {NoAnswerError} where the framework sets no limit.
 */
export function bandLimitOf(question: BandQuestion): BandLimit {
  const framework = touchFrameworks[question.framework];
  const band = requireBand(framework, question.band);
  if (!band.limits)
    throw new NoAnswerError(
      "band",
      `band ${band.name} of ${framework.name} has no limit: it is ${lastLimit(framework, question)}`,
    );
  const limit = band.limits[question.kind][question.condition];
  if (limit === undefined)
    throw new NoAnswerError(
      "condition",
      `${framework.name} gives no limit for ${question.condition}`,
    );
  const caveats: Caveat[] =
    framework.boundary === "inclusive"
      ? []
      : [
          {
            code: "limit-excluded",
            field: "limit",
            text: `${limit} V itself is no longer ${band.name}`,
            cite: band.cite,
          },
        ];
  return { limit, clause: band.clause, caveats };
}

function requireBand(framework: TouchFramework, name: string): TouchBand {
  const band = framework.bands.find((one) => one.name === name);
  if (band) return band;
  const names = framework.bands.map((one) => `"${one.name}"`).join(" or ");
  throw new InputError("band", name, `${names} in ${framework.name}`);
}

function lastLimit(framework: TouchFramework, { kind }: BandQuestion): string {
  const limits = framework.bands.flatMap(({ limits }) => (limits ? [limits[kind].dry] : []));
  const verb = framework.boundary === "inclusive" ? "above" : "not below";
  return `all that is ${verb} ${Math.max(...limits)} V ${kind}`;
}

export function bandLimitSteps({ framework, band }: BandQuestion): StepsOf<BandLimit> {
  const { cite } = requireBand(touchFrameworks[framework], band);
  return {
    limit: {
      label: "Limit of the band",
      symbol: "Ulim",
      unit: "V",
      kind: "lookup",
      table: "touch-voltage bands",
      key: "band",
      cite,
    },
  };
}
