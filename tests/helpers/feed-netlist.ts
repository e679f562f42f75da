import type { FeedItem } from "../../src/network/feed-item.js";
import { NGSPICE_OPTIONS } from "./ngspice.js";

/**
 * A feed as a circuit, written from what the feed table's columns mean and from nothing of the solver: `n3` is the
 * output node of row 3, and a sensing source `vs3` carries its output current out of it.
 *
 * @param start Voltage to start each output node from; the no-load voltages where nothing is given.
 * @param blocked Rows that carry nothing because their reverse flow is blocked.
 */
export function feedNetlist(
  items: readonly FeedItem[],
  start: ReadonlyMap<number, number> = noLoadVoltages(items),
  blocked: ReadonlySet<number> = new Set(),
): string {
  const rowOf = new Map(items.map(({ item }, row) => [item, row]));
  const lines = items.flatMap((item, row) => {
    const feeding = (item.fedFrom ?? "").split(";").map((name) => rowOf.get(name.trim()));
    const nodes = item.fedFrom === undefined ? ["0"] : feeding.map((fed) => `n${fed}`);
    if (item.kind === "bus")
      return nodes.map((node, place) => `vs${row}x${place} ${node} n${row} 0`);
    if (item.kind === "tie")
      return [
        `rt${row} ${nodes[0]} t${row} ${item.resistance! / item.inParallel}`,
        `vs${row} t${row} ${nodes[1]} 0`,
      ];
    return blocked.has(row) ? open(item, row, nodes[0]!) : elementsOf(item, row, nodes[0]!);
  });
  const nodesets = [...start].map(([row, voltage]) => `.nodeset v(n${row})=${voltage}`);
  return [...lines, ...nodesets, NGSPICE_OPTIONS].join("\n");
}

/** A row whose reverse flow is blocked and would flow: of a stage what it draws by itself is left. */
function open(item: FeedItem, row: number, input: string): string[] {
  return item.kind === "ratio" || item.kind === "regulated"
    ? [`bi${row} ${input} 0 i=${item.inParallel * (item.fixedLoss ?? 0)}/v(${input})`]
    : [];
}

function elementsOf(item: FeedItem, row: number, input: string): string[] {
  const n = item.inParallel;
  const load = item.load ?? 0;
  switch (item.kind) {
    case "supply":
      return [`vo${row} o${row} 0 ${item.voltage}`, ...output(row, (item.resistance ?? 0) / n)];
    case "run":
      return [`ri${row} ${input} n${row} ${item.resistance! / n}`];
    case "series":
      return [
        `vo${row} ${input} o${row} ${item.voltage ?? 0}`,
        ...output(row, (item.resistance ?? 0) / n),
      ];
    case "ratio": {
      const droop = item.resistance ?? 0;
      const loss = drawn(item, row, (item.quadraticLoss ?? droop) - droop);
      const passed = `${item.ratio! / (item.efficiency ?? 1)}*i(vs${row})`;
      return [
        `eo${row} o${row} 0 ${input} 0 ${item.ratio}`,
        ...output(row, droop / n),
        `bi${row} ${input} 0 i=${passed}+(${loss})/v(${input})`,
      ];
    }
    case "regulated": {
      const loss = drawn(item, row, item.quadraticLoss ?? 0);
      const passed = `v(n${row})*i(vs${row})*${1 / (item.efficiency ?? 1)}`;
      return [
        `vo${row} o${row} 0 ${item.voltage}`,
        ...output(row, (item.resistance ?? 0) / n),
        `bi${row} ${input} 0 i=(${passed}+${loss})/v(${input})`,
      ];
    }
    case "bus":
    case "tie":
      return [];
    case "power load":
      return [`bl${row} ${input} 0 i=${load * n}/v(${input})`];
    case "current load":
      return [`il${row} ${input} 0 ${load * n}`];
    case "resistance load":
      return [`rl${row} ${input} 0 ${load / n}`];
  }
}

/** From the ideal node `o` through the row's resistance, where it has one, and the sensing source to `n`. */
function output(row: number, resistance: number): string[] {
  return resistance > 0
    ? [`ro${row} o${row} q${row} ${resistance}`, `vs${row} q${row} n${row} 0`]
    : [`vs${row} o${row} n${row} 0`];
}

function drawn(item: FeedItem, row: number, quadratic: number): string {
  const n = item.inParallel;
  return `${n * (item.fixedLoss ?? 0)}+${item.linearLoss ?? 0}*abs(i(vs${row}))+${quadratic / n}*i(vs${row})*i(vs${row})`;
}

function noLoadVoltages(items: readonly FeedItem[]): Map<number, number> {
  const rowOf = new Map(items.map(({ item }, row) => [item, row]));
  const voltages = new Map<number, number>();
  items.forEach((item, row) => {
    const before = item.fedFrom === undefined ? 0 : (voltages.get(rowOf.get(item.fedFrom)!) ?? 0);
    if (item.kind === "supply" || item.kind === "regulated") voltages.set(row, item.voltage!);
    else if (item.kind === "series") voltages.set(row, before - (item.voltage ?? 0));
    else if (!item.kind.endsWith("load")) voltages.set(row, before * (item.ratio ?? 1));
  });
  return voltages;
}
