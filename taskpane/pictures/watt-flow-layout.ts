/**
 * Where each watt goes, as places: items in columns from the supply on, each watt leaving to the right, in a load or as
 * heat. Ends stand in the order of the tree, so that no two ribbons cross; the largest flow of each item goes straight on.
 */
import { hierarchy, type HierarchyRectangularNode, partition } from "d3-hierarchy";
import { sameItem } from "../budgets/reading/range-table.js";
import { isLoad, isSupply, type SolvedItem } from "./solved-feed.js";

export interface FlowBar {
  readonly item: string;
  readonly power: number;
  readonly column: number;
  readonly top: number;
  readonly height: number;
}

/** Bends between a column and the next, then runs straight to `toColumn`. */
export interface FlowRibbon {
  readonly role: "onward" | "load" | "loss";
  readonly item: string;
  readonly power: number;
  readonly fromColumn: number;
  readonly toColumn: number;
  readonly fromTop: number;
  readonly toTop: number;
  readonly height: number;
}

export interface FlowEnd {
  readonly role: "load" | "loss";
  readonly item: string;
  readonly power: number;
  /** Middle of its label, in pixels from the top. */
  readonly middle: number;
}

export interface FlowLayout {
  readonly columns: number;
  readonly height: number;
  readonly bars: readonly FlowBar[];
  readonly ribbons: readonly FlowRibbon[];
  readonly ends: readonly FlowEnd[];
}

export interface FlowRoom {
  /** Height of all the power there is, in pixels. */
  readonly flowHeight: number;
  /** What the label of an end needs. */
  readonly labelHeight: (end: Pick<FlowEnd, "role" | "item">) => number;
  readonly gap: number;
}

interface Flow {
  readonly role: "all" | "item" | "load" | "loss";
  readonly item: string;
  readonly children: readonly Flow[];
  /** Power that ends here, W. */
  readonly power: number;
}

type FlowNode = HierarchyRectangularNode<Flow>;

export function flowLayout(
  items: readonly SolvedItem[],
  { flowHeight, labelHeight, gap }: FlowRoom,
): FlowLayout {
  const root = partitioned(items);
  const nodes = root.descendants().filter(({ data }) => data.role !== "all");
  const scale = flowHeight / (root.value ?? 1);
  const tops = new Map<FlowNode, number>();
  const ends: FlowEnd[] = [];
  let height = 0;
  for (const leaf of root.leaves().filter(isEnd)) {
    const { role, item, power } = leaf.data;
    const end = { role: role as FlowEnd["role"], item, power };
    const room = Math.max(power * scale, labelHeight(end)) + gap;
    tops.set(leaf, height + (room - power * scale) / 2);
    ends.push({ ...end, middle: height + room / 2 });
    height += room;
  }
  const topOf = (node: FlowNode): number => {
    const known = tops.get(node);
    if (known !== undefined) return known;
    const main = (node.children ?? []).reduce((most, child) =>
      (child.value ?? 0) > (most.value ?? 0) ? child : most,
    );
    const top = topOf(main) - (main.x0 - node.x0) * scale;
    tops.set(node, top);
    return top;
  };
  const inner = nodes.filter((node) => !isEnd(node));
  const columns = Math.max(...inner.map(({ depth }) => depth));
  return {
    columns,
    height,
    ends,
    bars: inner.map((node) => ({
      item: node.data.item,
      power: node.value ?? 0,
      column: node.depth - 1,
      top: topOf(node),
      height: (node.value ?? 0) * scale,
    })),
    ribbons: nodes.flatMap((node) => {
      const { parent } = node;
      if (!parent || parent.data.role === "all") return [];
      return {
        role: isEnd(node) ? (node.data.role as FlowEnd["role"]) : "onward",
        item: node.data.item,
        power: node.value ?? 0,
        fromColumn: parent.depth - 1,
        toColumn: isEnd(node) ? columns : node.depth - 1,
        fromTop: topOf(parent) + (node.x0 - parent.x0) * scale,
        toTop: topOf(node),
        height: (node.value ?? 0) * scale,
      };
    }),
  };
}

/** Loads first, the largest leading; what an item itself loses leaves it at the bottom. */
function partitioned(items: readonly SolvedItem[]): FlowNode {
  const all: Flow = {
    role: "all",
    item: "",
    power: 0,
    children: items.filter(isSupply).map((item) => flowOf(item, items)),
  };
  const tree = hierarchy<Flow>(all)
    .sum(({ power }) => power)
    .sort(
      (one, other) =>
        Number(one.data.role === "loss") - Number(other.data.role === "loss") ||
        (other.value ?? 0) - (one.value ?? 0),
    );
  return partition<Flow>().size([tree.value ?? 0, 1])(tree);
}

function flowOf(own: SolvedItem, items: readonly SolvedItem[]): Flow {
  const { item, inputPower, loss } = own;
  if (isLoad(own)) return { role: "load", item, power: inputPower, children: [] };
  const lost: Flow = { role: "loss", item, power: loss, children: [] };
  const fed = items
    .filter(({ fedFrom }) => sameItem(fedFrom, item))
    .map((one) => flowOf(one, items));
  return {
    role: "item",
    item,
    power: 0,
    children: [...fed, lost].filter(carriesPower),
  };
}

function carriesPower({ power, children }: Flow): boolean {
  return power > 0 || children.some(carriesPower);
}

function isEnd({ data }: FlowNode): boolean {
  return data.role === "load" || data.role === "loss";
}
