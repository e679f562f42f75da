/**
 * What a short circuit meets: the way from the supply or the stage that feeds a level, and what ends it. A fuse or breaker
 * looks after the cables behind it up to the next one or to the next stage. Behind a stage its own current limit is what
 * a fault gets.
 */
import { type FaultCurrent, faultCurrent, type FaultLoop } from "../protection/fault-current.js";
import { MissingFigure, type Place } from "./place.js";

export interface FoundFault extends FaultCurrent {
  readonly loop: FaultLoop;
  /** Rows on its way whose least resistance is not known: more may flow. */
  readonly lacking: readonly Place[];
}

/** The nearest fuse or breaker that a fault at the row's output flows through, the row itself included. */
export function fuseBefore(place: Place): Place | undefined {
  const way = place.tree.wayTo(place.row).map((row) => place.at(row));
  return way.filter((one) => one.isFuse).at(-1);
}

/** Cables behind a fuse, or behind a supply or stage itself, up to the next fuse or stage. */
export function cablesBehind(place: Place): readonly Place[] {
  const { tree, isFuse } = place;
  const source = isFuse ? place.source.row : place.row;
  return [...tree.source.keys()]
    .filter((row) => tree.source[row] === source)
    .map((row) => place.at(row))
    .filter((one) => one.isCable && fuseBefore(one)?.row === (isFuse ? place.row : undefined));
}

/** Whether no cable that the same fuse looks after lies behind the cable: a fault at its end is the least there is. */
export function isFarEnd(cable: Place): boolean {
  const fuse = fuseBefore(cable)?.row;
  return ![...cable.tree.source.keys()].some((row) => {
    const other = cable.at(row);
    return (
      row !== cable.row &&
      other.isCable &&
      cable.tree.source[row] === cable.tree.source[cable.row] &&
      fuseBefore(other)?.row === fuse &&
      cable.tree.wayTo(row).includes(cable.row)
    );
  });
}

/** Current limit of a supply, or of all units of a stage together, A; undefined where none is given. */
export function limitOf(source: Place): number | undefined {
  const limit = source.figure("currentLimit");
  return limit === undefined ? undefined : limit * source.inParallel;
}

/**
 * At the output of a row: the lowest voltage of its supply less what diodes hold back, all hot with worn contacts and at
 * the top of their tolerance, and the limit of supply or stage.
 * @throws {MissingFigure} for a stage without a limit.
 */
export function leastFault(place: Place): FoundFault {
  const { source, tree } = place;
  const limit = requireLimit(source);
  const way = tree.wayTo(place.row).map((row) => place.at(row));
  const held = way.reduce((sum, one) => sum + (one.figure("voltage") ?? 0), 0);
  const ohms = way.reduce(
    (sum, one) => sum + one.hotResistance * (1 + (one.figure("tolerance") ?? 0)),
    0,
  );
  return faultAt(place, {
    voltage: tree.idleOutput(source.row, "lowest") - held,
    supplyResistance: source.hotResistance,
    loopResistance: ohms,
    currentLimit: limit,
    faultCase: "least",
  });
}

/** Of some rows those that may have less resistance than is known; a contact has what is typed when it is new. */
export function leastUnknown(rows: readonly Place[]): readonly Place[] {
  return rows.filter(
    (one) =>
      one.kind.builtOf !== "contacts" &&
      one.figure("resistance")! > 0 &&
      one.figure("leastResistance") === undefined,
  );
}

/** `Least resistance of Bus and Coldest (°C) of Line`. */
export function leastResistancesOf(rows: readonly Place[]): string {
  return rows.map((one) => `${one.said("leastResistance")} of ${one.name}`).join(" and ");
}

/**
 * At the output of a row: the highest voltage of its supply, all cold with new contacts and at the bottom of their
 * tolerance, before any limit acts; behind a stage what all its units give.
 * @throws {MissingFigure} where nothing on the way has a resistance, and for a stage without a limit.
 */
export function greatestFault(place: Place): FoundFault {
  const { source, tree } = place;
  const limit = requireLimit(source);
  const way = tree.wayTo(place.row).map((row) => place.at(row));
  const ohms = way.reduce(
    (sum, one) => sum + one.coldResistance * (1 - (one.figure("tolerance") ?? 0)),
    0,
  );
  const isSupply = source.kind.role === "supply";
  const found = faultAt(place, {
    voltage: tree.idleOutput(source.row, "highest"),
    supplyResistance: source.coldResistance,
    loopResistance: ohms,
    currentLimit: limit,
    faultCase: isSupply ? "greatest" : undefined,
  });
  return isHeld(found) ? found : { ...found, lacking: leastUnknown([source, ...way]) };
}

/** Whether a current limit holds it, so that less resistance lets no more flow. */
export function isHeld({ current, prospectiveCurrent }: FaultCurrent): boolean {
  return current < prospectiveCurrent;
}

function faultAt(place: Place, loop: FaultLoop): FoundFault {
  if (!(loop.supplyResistance + loop.loopResistance > 0))
    throw new MissingFigure(place.source, ["resistance"]);
  return { ...faultCurrent(loop), loop, lacking: [] };
}

/** A supply without one is counted without; of a stage nothing is known without it. */
function requireLimit(source: Place): number | undefined {
  const limit = limitOf(source);
  if (limit === undefined && source.kind.role === "stage")
    throw new MissingFigure(source, ["currentLimit"]);
  return limit;
}
