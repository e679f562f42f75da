/** What a reader of a band should know besides it. */
import type { FoundBand, TouchVoltage } from "./touch-voltage.js";
import type { CitationId } from "../quantities/citations.js";
import type { Caveat } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { isWithin, type LimitCheck } from "./limit-check.js";
import {
  bandLimit,
  FRAMEWORKS,
  type TouchBand,
  type TouchCondition,
  type TouchFramework,
  touchFrameworks,
} from "./touch-bands.js";

export function judgementCaveats(
  touch: TouchVoltage,
  band: TouchBand,
  found: Pick<FoundBand, "check" | "rank">,
): Caveat[] {
  const caveats: Caveat[] = [];
  if (touch.condition === undefined)
    caveats.push({
      code: "condition-unknown",
      field: "voltage",
      text: "condition not given: counted as wet",
      cite: "definition",
    });
  if (noRippleCounted(touch, band))
    caveats.push({
      code: "no-ripple",
      field: "voltage",
      text: NO_RIPPLE_COUNTED,
      cite: "definition",
    });
  const { check } = found;
  const own = ownRipplePeak(check, touch);
  if (own !== undefined)
    caveats.push({
      code: "ripple-peak-own",
      field: "highestLimit",
      text: `${own.limit} V for the peaks is worked out here: no work is known that prints it`,
      cite: own.cite,
    });
  if (touch.rippleRms !== undefined && touch.ripplePeak === undefined)
    caveats.push({
      code: "ripple-peak-assumed",
      field: "peak",
      text: "ripple peak taken as √3 × rms, as of a triangular wave; give the measured peak of spikes",
      cite: "common-practice",
    });
  if (touch.kind === "ac rms")
    caveats.push({
      code: "sine-assumed",
      field: "limit",
      text: "limit for a sine of at most 1 kHz",
      cite: band.cite,
    });
  if (check.rule === "sum" && found.rank > 0)
    caveats.push({
      code: "sum-beyond-first-band",
      field: "sum",
      text: `ES2 with ripple is a figure in the standard, taken here as a straight line between its dc and ac limits`,
      cite: "iec-62368-1-es2-sum",
    });
  return [...caveats, ...stricterElsewhere(touch)];
}

export const NO_RIPPLE_COUNTED = "no ripple counted";

/** Dc of a band that ripple could take it out of, with none given. */
export function noRippleCounted({ kind, rippleRms }: TouchVoltage, { limits }: TouchBand): boolean {
  return kind === "dc" && rippleRms === undefined && limits !== undefined;
}

/** The limit of the peaks that the check was against, where its framework prints none for the place. */
function ownRipplePeak(
  check: LimitCheck,
  touch: TouchVoltage,
): { readonly limit: Volts; readonly cite: CitationId } | undefined {
  if (check.rule !== "ripple-free") return undefined;
  const limit = check.highestLimit;
  const cite = ripplePeakCite(touch.framework, check, touch.condition);
  return limit === undefined || cite === undefined ? undefined : { limit, cite };
}

/** Whose figure the limit of the peaks is, where it is not the framework's own. */
export function ripplePeakCite(
  framework: TouchFramework["name"],
  check: LimitCheck,
  condition: TouchCondition | undefined,
): CitationId | undefined {
  if (check.rule !== "ripple-free") return undefined;
  const place = condition ?? "wet";
  return touchFrameworks[framework].bands.find(
    ({ limits }) => limits?.ripplePeak?.[place] === check.highestLimit,
  )?.limits?.ripplePeakCite?.[place];
}

/** The lowest limit of another framework that the voltage crosses in the same condition. */
function stricterElsewhere(touch: TouchVoltage): Caveat[] {
  const condition = touch.condition ?? "wet";
  const crossed = FRAMEWORKS.filter((name) => name !== touch.framework)
    .flatMap((name) =>
      touchFrameworks[name].bands.map((band) => ({
        framework: touchFrameworks[name],
        band,
        limit: bandLimit(band, touch.kind, condition),
      })),
    )
    .flatMap(({ limit, ...rest }) =>
      limit !== undefined && !isWithin(touch.voltage, limit, rest.framework.boundary)
        ? [{ ...rest, limit }]
        : [],
    );
  const [first, ...others] = crossed;
  if (!first) return [];
  const strictest = others.reduce(
    (least, next) => (next.limit < least.limit ? next : least),
    first,
  );
  const { framework, band, limit } = strictest;
  return [
    {
      code: "crossed-elsewhere",
      field: "voltage",
      text: `beyond "${band.name}" of ${framework.name} (${limit} V ${touch.kind}, ${condition}), the strictest other limit crossed`,
      cite: band.cite,
    },
  ];
}
