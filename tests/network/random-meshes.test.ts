import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { compiledFeed, enterTree } from "../../src/network/compiled-feed.js";
import { columnsOf } from "../../src/network/feed-columns.js";
import { NOMINAL } from "../../src/network/feed-conditions.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { type MeshProof, solveTree } from "../../src/network/feed-solver.js";
import { NO_PARENT } from "../../src/network/feed-state.js";
import { blocksReverse } from "../../src/network/feed-numbers.js";
import { feedHeadroom } from "../../src/network/feed-headroom.js";
import { feedRowValues, stepsOfRow } from "../../src/network/feed-steps.js";
import { meshOf } from "../../src/network/meshes/mesh.js";
import { type OperatingPoint, operatingPoint } from "../../src/network/operating-point.js";
import { KINDS } from "../../src/network/row-kinds.js";
import { solution } from "../../src/network/solution.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { feedNetlist } from "../helpers/feed-netlist.js";
import { requireSolved } from "../helpers/feed.js";
import { nearbyOperatingPoint, operatingPoint as ngspice } from "../helpers/ngspice.js";
import { randomFeed, withLoads } from "../helpers/random-feed.js";
import { randomMesh } from "../helpers/random-mesh.js";

const MESHES = Number(process.env["DOWNFEED_MESHES"] ?? 80);
const SEED = 20261129;

/** Multiple at which the feed collapses; undefined where it does not up to a million times its loads. */
function collapseMultiple(items: readonly FeedItem[]): number | undefined {
  try {
    return feedHeadroom(columnsOf(items), "nominal").collapse?.multiple;
  } catch (error) {
    if (error instanceof NoAnswerError) return undefined;
    throw error;
  }
}

/** Some at light loads, some close to collapse. */
const feeds = fc
  .sample(fc.tuple(randomMesh, fc.noBias(fc.nat(1000))), { numRuns: MESHES, seed: SEED })
  .flatMap(([items, thousandths], index) => {
    const multiple = collapseMultiple(items);
    if (multiple === undefined)
      return [{ items, multiple: Infinity, point: operatingPoint(items) }];
    const headroom = index % 4 === 0 ? 1.02 + 0.2 * (thousandths / 1000) : 1.5 + thousandths / 100;
    const scaled = withLoads(items, multiple / headroom);
    return [{ items: scaled, multiple: headroom, point: operatingPoint(scaled) }];
  });

function proofsOf({ solutions }: OperatingPoint): readonly MeshProof[] {
  return solutions.flatMap((one) => (one.outcome === "solved" && one.mesh ? [one.mesh] : []));
}

function blockedIn(point: OperatingPoint): ReadonlySet<number> {
  return new Set(proofsOf(point).flatMap(({ blocked }) => blocked));
}

function voltagesOf({ rows }: OperatingPoint): Map<number, number> {
  const solved = rows.map(requireSolved);
  return new Map(
    solved.flatMap(({ item, output }, row) =>
      output && item.kind !== "tie" ? [[row, output.voltage] as const] : [],
    ),
  );
}

describe("operatingPoint of random meshes", () => {
  it("has rings, several supplies, blocked rows, stages in loops, and some near their collapse", () => {
    assert.equal(feeds.length, MESHES);
    const kinds = new Set(feeds.flatMap(({ items }) => items.map(({ kind }) => kind)));
    assert.equal(kinds.size, KINDS.length);
    assert.ok(feeds.filter(({ multiple }) => multiple < 1.25).length >= MESHES / 8);
    assert.ok(feeds.filter(({ point }) => blockedIn(point).size > 0).length >= MESHES / 4);
    const several = feeds.filter(
      ({ items }) => items.filter(({ kind }) => kind === "supply").length > 1,
    );
    assert.ok(several.length >= MESHES / 3, `${several.length} with several supplies`);
  });

  it("agrees with ngspice to 1e-6 in every voltage and supply current", async () => {
    let again = 0;
    let astray = 0;
    for (const { items, point } of feeds) {
      const netlist = feedNetlist(items, voltagesOf(point), blockedIn(point));
      const first = worstDifference(point, await ngspice(netlist));
      if (first <= 1e-6) continue;
      // From our own solution ngspice may still jump to the lower one: once more, near it only.
      again++;
      // Its usual choice of pivots fails where a dead end carries nothing.
      const pivots = ".options pivrel=0.5";
      const nearby = await nearbyOperatingPoint(`${netlist}\n${pivots}`).catch(() => undefined);
      const near = nearby ? worstDifference(point, nearby) : Infinity;
      if (near <= 1e-6) continue;
      assert.ok(
        !nearby || breaksItsOwnLaw(items, nearby),
        `differs by ${near} in ${JSON.stringify(items)}`,
      );
      astray++;
    }
    assert.ok(
      astray <= MESHES / 100,
      `ngspice finds nothing, or contradicts its own sources, in ${astray}`,
    );
    assert.ok(again <= MESHES / 10, `${again} had to be solved again`);
  }, 600_000);

  it("closes every mesh to 1e-9 of what its supplies give", () => {
    for (const { point } of feeds) {
      assert.equal(point.faults.size, 0);
      const { closingError, supplyPower } = point.totals;
      assert.ok(Math.abs(closingError) <= 1e-9 * supplyPower, `${closingError} of ${supplyPower}`);
    }
  });

  it("leaves no residual in any equation of a branch or a node that its working shows", () => {
    let nodes = 0;
    for (const { point } of feeds) {
      const values = feedRowValues(point.rows);
      point.rows.forEach((row, index) => {
        const solved = requireSolved(row);
        assertSteps(stepsOfRow(solved), values[index] ?? {});
        if (solved.item.kind === "bus" && solved.meshed) nodes++;
      });
    }
    assert.ok(nodes >= MESHES, `${nodes} nodes`);
  });

  it("lets no current flow back where that is blocked, and blocks nothing that would conduct", () => {
    for (const { items, point } of feeds) {
      const blocked = blockedIn(point);
      point.rows.map(requireSolved).forEach(({ item, output, inputVoltage }, row) => {
        const oneWay = item.reverseFlow ?? (item.kind === "regulated" ? "blocked" : "allowed");
        if (oneWay === "allowed" || !output) return;
        assert.ok(output.current >= -1e-9, `${item.item}: ${output.current} A`);
        if (!blocked.has(row)) return;
        assert.equal(output.current, 0);
        const own =
          item.kind === "supply" || item.kind === "regulated"
            ? item.voltage!
            : (item.ratio ?? 1) * inputVoltage - (item.voltage ?? 0);
        assert.ok(own <= output.voltage * (1 + 1e-12), `${item.item} in ${items.length}`);
      });
    }
  });

  it("accepts each at 0.9999 of its collapse and refuses it at 1.0001, where ngspice finds nothing nearby", async () => {
    for (const { items, multiple } of feeds.filter((_, index) => index % 4 === 0)) {
      if (multiple === Infinity) continue;
      const below = operatingPoint(withLoads(items, 0.9999 * multiple));
      assert.equal(below.faults.size, 0);
      const beyond = withLoads(items, 1.0001 * multiple);
      assert.ok(operatingPoint(beyond).faults.size > 0);
      const voltages = voltagesOf(below);
      const netlist = feedNetlist(beyond, voltages, blockedIn(below));
      const found = await nearbyOperatingPoint(netlist).catch(() => undefined);
      const least = [...voltages].map(([row, voltage]) => (found?.[`v(n${row})`] ?? 0) / voltage);
      assert.ok(Math.min(...least) < 0.9, "ngspice goes on where the feed has collapsed");
    }
  }, 600_000);
});

describe("solveMesh on trees", () => {
  it("gives every voltage and current that the solver of trees gives, to 1e-12", () => {
    let compared = 0;
    for (const items of fc.sample(randomFeed, { numRuns: 150, seed: SEED })) {
      const columns = columnsOf(items);
      const [feed, other] = [compiledFeed(columns), compiledFeed(columns)];
      for (const tree of feed.trees) {
        // A stage without resistance is refused before what is meshed.
        const isIdeal = (row: number) => items[row]!.kind === "ratio" && !items[row]!.resistance;
        if (tree.order.some(isIdeal)) continue;
        const feeders = new Map(
          [...tree.order].flatMap((row) =>
            feed.parent[row] !== NO_PARENT && KINDS[columns.kind[row]!]!.role !== "load"
              ? [[row, [feed.parent[row]!]] as const]
              : [],
          ),
        );
        if (feeders.size === 0) continue;
        const giving = new Set<number>();
        const mesh = meshOf({
          ...columns,
          order: tree.order,
          parent: feed.parent,
          feeders,
          giving,
        });
        assert.ok(!("error" in mesh));
        for (const row of tree.order)
          other.numbers.oneWay[row] = blocksReverse(columns, row) ? 1 : 0;
        assert.equal(enterTree(feed, tree, NOMINAL), undefined);
        assert.equal(enterTree(other, { ...tree, mesh }, NOMINAL), undefined);
        const [known, found] = [
          solveTree(tree.order, feed),
          solution({ order: tree.order, mesh }, other),
        ];
        assert.equal(found.outcome, known.outcome);
        if (known.outcome !== "solved") continue;
        for (const row of tree.order)
          for (const name of [
            "inputVoltage",
            "outputVoltage",
            "inputCurrent",
            "outputCurrent",
          ] as const) {
            const [one, two] = [feed.state[name][row]!, other.state[name][row]!];
            const scale = name.endsWith("Voltage") ? feed.state.noLoadVoltage[row]! : Math.abs(one);
            assert.ok(
              Math.abs(one - two) <= 1e-12 * scale,
              `${name} of ${items[row]!.kind}: ${one}, ${two}`,
            );
          }
        compared++;
      }
    }
    assert.ok(compared >= 100, `${compared} trees`);
  });
});

/**
 * Whether ngspice's answer has another voltage across a forward drop or a tie than the source or the resistance that stands
 * for it holds: seen in two of 500, 47 V where the source is 0.7 V, 1 368 V across 0.2 Ω that carry nothing.
 */
function breaksItsOwnLaw(
  items: readonly FeedItem[],
  found: Readonly<Record<string, number>>,
): boolean {
  const rowOf = new Map(items.map(({ item }, row) => [item, row]));
  const voltageOf = (name: string) => found[`v(n${rowOf.get(name.trim())})`];
  return items.some(({ kind, fedFrom, voltage = 0, resistance = 0, inParallel }, row) => {
    if (kind === "tie") {
      const [first, second] = fedFrom!.split(";").map(voltageOf);
      const driven = (resistance / inParallel) * found[`i(vs${row})`]!;
      return Math.abs(first! - second! - driven) > 1e-3;
    }
    const [before, behind] = [found[`v(n${rowOf.get(fedFrom ?? "")})`], found[`v(o${row})`]];
    if (kind !== "series" || before === undefined || behind === undefined) return false;
    return Math.abs(before - behind - voltage) > 1e-3;
  });
}

function worstDifference(point: OperatingPoint, found: Readonly<Record<string, number>>): number {
  let worst = 0;
  point.rows.map(requireSolved).forEach(({ item, output }, row) => {
    if (!output || item.kind === "tie") return;
    const voltage = found[`v(n${row})`]!;
    worst = Math.max(worst, Math.abs(voltage - output.voltage) / output.voltage);
    if (item.kind !== "supply" || output.current === 0) return;
    const current = found[`i(vs${row})`]!;
    // Beside what the supply could give at most, which rounding goes with.
    const scale = Math.max(Math.abs(output.current), 1);
    worst = Math.max(worst, Math.abs(current - output.current) / scale);
  });
  return worst;
}
