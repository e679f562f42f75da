/**
 * The operating point of a group of rows in which some are fed from several, or in which loads give power back: Newton's
 * method on the voltages of its meshed part, with the trees that hang on it as the lines that `feed-solver.ts` draws.
 *
 *   between two ends   I = g·(k·V₁ − V₂ − d)      k the ratio of a stage, 1 elsewhere; k·I is drawn at V₁
 *   source             I = g·(E − V)
 *   at every end       Σ I that arrive = Σ I that leave + α + β·V of what hangs there
 *
 * What loads and losses draw is convex in the voltage, so that Newton's steps fall from the voltages without load to the
 * highest solution and do not pass it. Its matrix has no entry above 0 beside its diagonal: while every pivot is above 0
 * it is an M-matrix, and the voltages stand at or above every solution. A pivot at or below 0, or a voltage, is the proof
 * that there is none. [monotone-newton, taheri-kekatos, jeeninga]
 *
 * Where reverse flow is blocked, what conducts is found anew at every step, from the state before it: a branch that
 * would carry current backwards is opened, an open one with voltage across it in its direction is closed.
 *
 * Power that a load gives back is concave in the voltage, so that this holds no longer. It is solved from below: first
 * without it, then with the line that touches its current where the voltages stand, which is nowhere above it and keeps
 * all else convex, again and again: the voltages rise to the operating point and do not pass it. If the matrix without it
 * is positive definite at the voltages without it, the true one is so at all that are no lower, and no two points of
 * these are both solutions.
 */
import { InputError } from "../../quantities/errors.js";
import {
  drawLines,
  followLines,
  leastDivisor,
  type MeshProof,
  type Overfed,
  settleCurrents,
  type SolvableFeed,
  startAtNoLoad,
  type TreeSolution,
} from "../feed-solver.js";
import { type FeedNumbers, type FeedState, NO_PARENT } from "../feed-state.js";
import { drawnLoss, EQUATION } from "../row-kinds.js";
import {
  type Edge,
  GROUND,
  type Island,
  type IslandPlan,
  NO_UNKNOWN,
  type Step,
} from "./island.js";
import { type EdgeState, islandPlan, type PlanFault } from "./island-plan.js";
import type { Mesh } from "./mesh.js";
import { factorise, solveFactored } from "./sparse-factor.js";

/** As in `feed-solver.ts`. */
const MOST_ITERATIONS = 200;
const SETTLED = 4e-15;
const CLOSED = 1e-11;

/** Part of a branch's current without any voltage behind it that rounding alone makes. */
const ROUNDING = 1e-13;

/** Part of a voltage to which power that is given back is found from below, before Newton's steps end it. */
const NEAR = 1e-6;

/** Part of a voltage by which it may be below another one and count as the same. */
const SAME = 1e-10;

/** Times its voltage without load to which power that nothing takes lifts a part before it is given up. */
const MOST_RISE = 1e4;

/** Part of the power of a stage to which a loss that follows its current is settled. */
const LOSS_SETTLED = 1e-14;

export function solveMesh(mesh: Mesh, feed: SolvableFeed): TreeSolution {
  const parts: IslandAnswer[] = [];
  for (const island of mesh.islands) {
    const found = new IslandSolver(island, feed).solve();
    if ("outcome" in found) return found;
    parts.push(found);
  }
  const least = parts.reduce((one, other) => (other.leastPivot < one.leastPivot ? other : one));
  const claim = CLAIMS.find((one) => parts.some((part) => part.claim === one))!;
  const floors = claim === "only one at or above" ? parts.flatMap(({ floor }) => [...floor]) : [];
  return {
    outcome: "solved",
    iterations: Math.max(...parts.map(({ iterations }) => iterations)),
    residual: Math.max(...parts.map(({ residual }) => residual)),
    leastDivisor: Math.min(...parts.map((part) => part.leastDivisor)),
    mesh: {
      leastPivot: least.leastPivot,
      row: least.row,
      unproven: parts.flatMap(({ unproven }) => unproven),
      claim,
      floor: new Map(floors),
      blocked: parts.flatMap(({ blocked }) => blocked),
    },
  };
}

/** The least that is proven of any part is what is proven of all. */
const CLAIMS = ["not proven", "only one at or above", "upper"] as const;

/** What of a mesh cannot be solved, whatever conducts, and the row to blame. */
export function meshFault(mesh: Mesh, numbers: FeedNumbers): PlanFault | undefined {
  for (const island of mesh.islands) {
    for (const edge of island.edges) {
      const error = edgeFault(edge, numbers);
      if (error) return { row: edge.row, error };
    }
    const found = planOf(island, numbers, new Uint8Array(island.edges.length));
    if ("error" in found) return found;
  }
  return undefined;
}

function edgeFault({ row, sort }: Edge, numbers: FeedNumbers): InputError | undefined {
  const { resistance, efficiency, voltage, oneWay } = numbers;
  if (sort === "ratio" && resistance[row] === 0)
    return new InputError("resistance", null, IDEAL_STAGE);
  if (oneWay[row]) return undefined;
  if (efficiency[row] !== 1) return new InputError("efficiency", efficiency[row]!, NO_EFFICIENCY);
  if (sort === "line" && voltage[row]! > 0)
    return new InputError("reverseFlow", "allowed", NO_DROP_BACK);
  return undefined;
}

const IDEAL_STAGE =
  "given, above 0, of a stage that feeds what is fed from several, or a load that gives power back";
const NO_EFFICIENCY =
  "blank, with losses given instead, where Reverse flow is allowed: backwards it is not known";
const NO_DROP_BACK = "blocked where Voltage is a forward drop: backwards it is not known";

function planOf(island: Island, numbers: FeedNumbers, blocked: Uint8Array): IslandPlan | PlanFault {
  const { edges, plans } = island;
  const states = edges.map((edge, at): EdgeState => {
    if (blocked[at]) return "open";
    return resistanceOf(edge, numbers) === 0 ? "joint" : "branch";
  });
  const key = states.map((state) => state[0]).join("");
  const known = plans.get(key);
  if (known) return known;
  const made = islandPlan(island, states, (at) => resistanceOf(edges[at]!, numbers));
  if (!("error" in made)) plans.set(key, made);
  return made;
}

function resistanceOf({ sort, row }: Edge, { resistance }: FeedNumbers): number {
  return sort === "joint" ? 0 : resistance[row]!;
}

interface Settled {
  readonly outcome: "settled";
  readonly iterations: number;
}

interface IslandAnswer extends MeshProof {
  readonly iterations: number;
  readonly residual: number;
  readonly leastDivisor: number;
}

type Failed = Exclude<TreeSolution, { readonly outcome: "solved" }>;

/** How power that is given back counts: not, by the lines that touch it at these voltages of `drawing`, or as it is. */
type GivenBack = "off" | Float64Array | "on";

/** One island of a mesh in one case. */
class IslandSolver {
  private readonly terminals: Int32Array;
  private readonly edges: readonly Edge[];
  private readonly state: FeedState;
  /** By edge: blocked, though it would conduct by itself. */
  private readonly blocked: Uint8Array;
  /** By terminal: voltage, how far it lies from the one of its unknown, and the line of what hangs there. */
  private readonly voltage: Float64Array;
  private readonly offset: Float64Array;
  private readonly constant: Float64Array;
  private readonly slope: Float64Array;
  /** By edge. */
  private readonly current: Float64Array;
  /** By stage that draws here: losses that follow its current, as they were found last. */
  private readonly followingLoss: Float64Array;
  private plan!: IslandPlan;
  private dropsCount = true;
  private givenBack: GivenBack = "on";

  constructor(
    private readonly island: Island,
    private readonly feed: SolvableFeed,
  ) {
    const { terminals, edges } = island;
    this.terminals = terminals;
    this.edges = edges;
    this.state = feed.state;
    this.blocked = new Uint8Array(edges.length);
    this.current = new Float64Array(edges.length);
    this.voltage = new Float64Array(terminals.length);
    this.offset = new Float64Array(terminals.length);
    this.constant = new Float64Array(terminals.length);
    this.slope = new Float64Array(terminals.length);
    this.followingLoss = new Float64Array(island.drawing.length);
  }

  solve(): IslandAnswer | Failed {
    if (this.givesBack()) return this.solveGivingBack();
    const started = this.startAtNoLoad();
    if (started) return started;
    const found = this.descendAndSettle();
    return found.outcome === "settled" ? this.answer(found.iterations) : found;
  }

  private givesBack(part?: readonly number[]): boolean {
    return this.island.drawing.some(
      ({ terminal }, at) => this.drawnPower(at) < 0 && (!part || part.includes(terminal)),
    );
  }

  /** From the voltages with nothing given back, at or above which there is but one where the matrix says so. */
  private solveGivingBack(): IslandAnswer | Failed {
    const { state, island, terminals } = this;
    this.givenBack = "off";
    const started = this.startAtNoLoad();
    if (started) return started;
    const noLoadVoltage = state.noLoadVoltage.slice();
    const without = this.descendAndSettle();
    let floor: Float64Array | undefined;
    let isOnlyOne = false;
    this.dropsCount = true;
    if (without.outcome === "settled") {
      floor = this.voltage.slice();
      isOnlyOne = this.isConvexAbove();
      const failed = this.climb();
      if (failed) return failed;
    } else {
      // Loads that live on what is given back: from the voltages without load, if that leads anywhere.
      const again = this.startAtNoLoad();
      if (again) return again;
    }
    this.givenBack = "on";
    const found = this.descendAndSettle();
    if (found.outcome !== "settled") return this.overfed(found.iterations) ?? found;
    for (const row of [...terminals, ...island.radial])
      state.noLoadVoltage[row] = noLoadVoltage[row]!;
    const answer = this.answer(found.iterations);
    if ("outcome" in answer) return answer;
    const isAbove = floor?.every(
      (voltage, place) => state.outputVoltage[terminals[place]!]! >= voltage * (1 - SAME),
    );
    if (!floor || !isAbove || !isOnlyOne || answer.unproven.length > 0)
      return { ...answer, claim: "not proven" };
    const byRow = new Map(Array.from(terminals, (row, place) => [row, floor[place]!]));
    return { ...answer, claim: "only one at or above", floor: byRow };
  }

  /** From below: each time the highest voltages with the lines that touch what is given back at the voltages before. */
  private climb(): Failed | undefined {
    const { drawing } = this.island;
    const voltages = () => Float64Array.from(drawing, ({ terminal }) => this.voltage[terminal]!);
    const highest = Math.max(...this.voltage) * MOST_RISE;
    let touched = voltages();
    let overfed: Overfed | undefined;
    for (let round = 1; round <= MOST_ITERATIONS; round++) {
      this.givenBack = touched;
      const failed = this.startAtNoLoad();
      if (failed) return overfed ?? failed;
      const found = this.descend();
      if (found.outcome !== "settled") return overfed ?? found;
      const risen = voltages();
      const step = Math.max(...risen.map((one, at) => Math.abs(one / touched[at]! - 1)));
      if (step <= NEAR) return undefined;
      overfed = this.overfed(round);
      if (overfed && Math.max(...risen) > highest) return overfed;
      touched = risen;
    }
    return (
      overfed ?? { outcome: "collapsed", row: this.leastPivot().row, iterations: MOST_ITERATIONS }
    );
  }

  /** Whether more is given back to a part that no supply reaches than is taken there. */
  private overfed(iterations: number): Overfed | undefined {
    const { island, edges, blocked, terminals } = this;
    for (const part of this.plan.adrift) {
      if (!this.givesBack(part)) continue;
      const within = new Set(part);
      const { alphaFed, betaFed } = this.state;
      let power = 0;
      for (const place of part) {
        const row = terminals[place]!;
        const voltage = this.voltage[place]!;
        power -= (alphaFed[row]! + betaFed[row]! * voltage) * voltage;
      }
      const inPart = [...island.drawing.keys()].filter((at) =>
        within.has(island.drawing[at]!.terminal),
      );
      for (const at of inPart) power -= this.drawnPower(at);
      if (!(power > 0)) continue;
      const most = inPart.reduce((one, other) =>
        this.drawnPower(other) < this.drawnPower(one) ? other : one,
      );
      const blocking = edges.find(
        ({ from, to }, at) => blocked[at] && within.has(to) && !within.has(from),
      );
      if (!blocking) throw new Error("a part is adrift behind nothing that blocks");
      const { row } = island.drawing[most]!;
      return { outcome: "overfed", row, blocking: blocking.row, power, iterations };
    }
    return undefined;
  }

  /**
   * Whether the matrix without what is given back is positive definite where the voltages stand, whatever conducts of
   * the rows that block reverse flow: then it is so at all voltages above, where loads draw less than these lines.
   */
  private isConvexAbove(): boolean {
    const { edges, feed } = this;
    if (this.drawAll() !== NO_PARENT) return false;
    const open = Uint8Array.from(edges, ({ row, sort }) =>
      sort !== "joint" && feed.numbers.oneWay[row] ? 1 : 0,
    );
    const apart = planOf(this.island, feed.numbers, open);
    if ("error" in apart) throw apart.error;
    // The only way into a part that takes more than is given back there conducts always.
    for (const part of apart.adrift) {
      const ways = [...edges.keys()].filter((at) => open[at] && part.includes(edges[at]!.to));
      if (ways.length === 1 && this.takesMore(part)) open[ways[0]!] = 0;
    }
    const plan = planOf(this.island, feed.numbers, open);
    if ("error" in plan) throw plan.error;
    this.plan = plan;
    this.followJoints();
    this.enterMatrix(new Float64Array(plan.factor.plan.size));
    return factorise(plan.factor) === undefined;
  }

  /** Whether what holds its power in a part comes to no less than what is given back there. */
  private takesMore(part: readonly number[]): boolean {
    const { island, terminals, feed } = this;
    const { demand, equation, fixedLoss } = feed.numbers;
    const within = new Set(part.map((place) => terminals[place]!));
    let power = 0;
    for (const row of island.radial) {
      if (!within.has(feed.parent[row]!)) continue;
      within.add(row);
      power += equation[row] === EQUATION.power ? demand[row]! : fixedLoss[row]!;
    }
    island.drawing.forEach(({ terminal }, at) => {
      if (part.includes(terminal)) power += this.drawnPower(at);
    });
    return power >= 0;
  }

  /** Newton's steps to their end, with losses that follow the current. */
  private descendAndSettle(): Settled | Failed {
    for (let round = 1; ; round++) {
      const found = this.descend();
      if (found.outcome !== "settled") return found;
      this.settle();
      if (this.isAtRest() && this.dropsCount) {
        // Without any current no forward drop is there, and the voltages without it are the highest.
        this.dropsCount = false;
        const again = this.startAtNoLoad();
        if (again) return again;
        continue;
      }
      if (this.lossesSettled()) return found;
      // Losses that do not settle give no answer.
      if (round >= MOST_ITERATIONS)
        return { outcome: "collapsed", row: this.leastPivot().row, iterations: round };
    }
  }

  private numberOf(field: "resistance" | "voltage" | "ratio", { row }: Edge): number {
    return this.feed.numbers[field][row]!;
  }

  private isWithoutResistance(edge: Edge): boolean {
    return resistanceOf(edge, this.feed.numbers) === 0;
  }

  /** Ratio from the voltage before a branch to that behind it without current. */
  private gain(edge: Edge): number {
    return edge.sort === "ratio" ? this.numberOf("ratio", edge) : 1;
  }

  /** Forward drop of a line. */
  private drop(edge: Edge): number {
    const counts = edge.sort === "line" && this.dropsCount && this.state.carries[edge.row]!;
    return counts ? this.numberOf("voltage", edge) : 0;
  }

  private before({ from }: Edge, values = this.voltage): number {
    return from === GROUND ? 0 : values[from]!;
  }

  /** Voltage across a branch in its direction, without what its own resistance drops. */
  private driving(edge: Edge): number {
    if (edge.sort === "source") return this.numberOf("voltage", edge) - this.voltage[edge.to]!;
    return this.gain(edge) * this.before(edge) - this.drop(edge) - this.voltage[edge.to]!;
  }

  /** Anew before each descent: what was blocked at the end of the one before may conduct now. */
  private markCarrying(): void {
    const { terminals, edges, state } = this;
    for (const row of terminals) state.carries[row] = 1;
    for (const { row, sort } of edges) if (sort === "tie") state.carries[row] = 1;
    // What feeds a dead end alone carries nothing.
    const drawn = new Set<number>();
    const { parent, numbers } = this.feed;
    const { drawing } = this.island;
    for (const { row, sort } of drawing)
      if (sort === "load") state.carries[row] = numbers.demand[row] === 0 ? 0 : 1;
    for (const row of this.island.radial)
      state.carries[row] = numbers.demand[row]! > 0 || numbers.fixedLoss[row]! > 0 ? 1 : 0;
    for (let at = this.island.radial.length - 1; at >= 0; at--) {
      const row = this.island.radial[at]!;
      if (state.carries[row]) {
        state.carries[parent[row]!] = 1;
        drawn.add(parent[row]!);
      }
    }
    const feeding = new Set<number>();
    for (const { from, to, sort } of edges) {
      if (from !== GROUND) feeding.add(from);
      if (sort === "tie" || sort === "joint") feeding.add(to);
    }
    for (const { row, terminal } of drawing) if (state.carries[row]) feeding.add(terminal);
    terminals.forEach((row, place) => {
      if (!drawn.has(row) && !feeding.has(place)) state.carries[row] = 0;
    });
  }

  /** Voltages without load, which no solution exceeds that lies on the lines of what is given back. */
  private startAtNoLoad(): Failed | undefined {
    this.markCarrying();
    this.constant.fill(0);
    this.slope.fill(0);
    if (typeof this.givenBack === "object")
      this.island.drawing.forEach((_, at) => {
        const power = this.drawnPower(at);
        if (power < 0) this.enterPower(at, power);
      });
    const failed = this.solveLines();
    if (failed) return failed;
    const { state } = this;
    this.terminals.forEach((row, place) => (state.outputVoltage[row] = this.voltage[place]!));
    for (const edge of this.edges)
      state.noLoadVoltage[edge.row] =
        edge.sort === "source" ? this.numberOf("voltage", edge) : this.before(edge);
    for (const { row, terminal } of this.island.drawing)
      state.noLoadVoltage[row] = this.voltage[terminal]!;
    startAtNoLoad(this.island.radial, this.feed);
    return undefined;
  }

  private descend(): Settled | Failed {
    this.markCarrying();
    const { state, feed, island } = this;
    let previous = Infinity;
    for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
      const failedRow = this.drawAll();
      if (failedRow !== NO_PARENT) return { outcome: "collapsed", row: failedRow, iterations };
      const before = this.voltage.slice();
      const failed = this.solveLines();
      if (failed) return failed;
      let step = 0;
      for (let place = 0; place < before.length; place++) {
        const voltage = this.voltage[place]!;
        if (!(voltage > 0))
          return { outcome: "collapsed", row: this.terminals[place]!, iterations };
        step = Math.max(step, Math.abs(voltage - before[place]!) / voltage);
        state.outputVoltage[this.terminals[place]!] = voltage;
      }
      const followed = followLines(island.radial, feed);
      if (followed.failedRow !== NO_PARENT)
        return { outcome: "collapsed", row: followed.failedRow, iterations };
      step = Math.max(step, followed.largest);
      if (step <= SETTLED || (step <= CLOSED && step >= previous))
        return { outcome: "settled", iterations };
      previous = step;
    }
    return { outcome: "collapsed", row: this.leastPivot().row, iterations: MOST_ITERATIONS };
  }

  /** The line of what hangs at each terminal, at the present voltages. */
  private drawAll(): number {
    const { state, feed, island, terminals } = this;
    for (const row of terminals) state.alphaFed[row] = state.betaFed[row] = 0;
    const failed = drawLines(island.radial, feed);
    if (failed !== NO_PARENT) return failed;
    terminals.forEach((row, place) => {
      this.constant[place] = state.alphaFed[row]!;
      this.slope[place] = state.betaFed[row]!;
    });
    island.drawing.forEach((_, at) => this.enterPower(at, this.countedPower(at)));
    return NO_PARENT;
  }

  /** The line that touches the current of a power, at the present voltage or where `givenBack` says. */
  private enterPower(at: number, power: number): void {
    const { terminal } = this.island.drawing[at]!;
    const { givenBack } = this;
    const voltage =
      power < 0 && typeof givenBack === "object" ? givenBack[at]! : this.voltage[terminal]!;
    this.constant[terminal]! += (2 * power) / voltage;
    this.slope[terminal]! -= power / voltage ** 2;
  }

  private countedPower(at: number): number {
    const power = this.drawnPower(at);
    return power < 0 && this.givenBack === "off" ? 0 : power;
  }

  /** What is drawn here besides what is passed on: losses of a ratio stage, all of a regulated one; of a load, below 0 what it gives back. */
  private drawnPower(at: number): number {
    const { row, sort } = this.island.drawing[at]!;
    const { numbers, state } = this.feed;
    if (sort === "load") return numbers.demand[row]!;
    if (sort === "ratio") return numbers.fixedLoss[row]! + this.followingLoss[at]!;
    const current = state.outputCurrent[row]!;
    return (
      (state.outputVoltage[row]! * current) / numbers.efficiency[row]! +
      drawnLoss(row, current, numbers)
    );
  }

  /** Solves the network with the lines that stand now, and finds what conducts. */
  private solveLines(): Failed | undefined {
    const turns = 2 * this.edges.length + 20;
    for (let turn = 0; turn < turns; turn++) {
      this.planNow();
      const failed = this.solveVoltages();
      if (failed !== undefined) {
        if (!this.blocked.some(Boolean))
          return { outcome: "collapsed", row: this.rowOfUnknown(failed), iterations: turn };
        // With every branch conducting the matrix is largest: where that has no answer, no state has.
        this.blocked.fill(0);
        this.planNow();
        if (this.solveVoltages() !== undefined)
          return { outcome: "collapsed", row: this.rowOfUnknown(failed), iterations: turn };
      }
      this.findCurrents();
      // All at once as a rule; one at a time at last, which comes to an end.
      if (!this.turn(turn < this.edges.length + 10)) return undefined;
    }
    return { outcome: "collapsed", row: this.terminals[0]!, iterations: turns };
  }

  private planNow(): void {
    for (;;) {
      const found = planOf(this.island, this.feed.numbers, this.blocked);
      if ("error" in found) throw found.error;
      const givesNow = this.givenBack !== "off";
      // Without anything that gives current back, some branch into a part conducts: the nearest to a supply first.
      const dark = new Set(
        found.adrift.filter((part) => !(givesNow && this.givesBack(part))).flat(),
      );
      if (dark.size === 0) {
        this.plan = found;
        return;
      }
      const opened = this.edges.flatMap(({ from, to }, edge) =>
        this.blocked[edge] && dark.has(to) && !dark.has(from) ? [edge] : [],
      );
      if (opened.length === 0) throw new Error("a part of a mesh hangs on no supply");
      for (const edge of opened) this.blocked[edge] = 0;
    }
  }

  /** @returns the unknown at which the matrix has no pivot above 0. */
  private solveVoltages(): number | undefined {
    const { plan, offset, voltage } = this;
    const { factor, unknownOf } = plan;
    const right = new Float64Array(factor.plan.size);
    this.followJoints();
    this.enterMatrix(right);
    const failed = factorise(factor);
    if (failed !== undefined) return failed;
    solveFactored(factor, right);
    for (let place = 0; place < voltage.length; place++) {
      const unknown = unknownOf[place]!;
      voltage[place] = offset[place]! + (unknown === NO_UNKNOWN ? 0 : right[unknown]!);
    }
    return undefined;
  }

  /** How far each terminal lies from its unknown; of one that is held, its voltage. */
  private followJoints(): void {
    this.offset.fill(0);
    for (const step of this.plan.joints)
      this.offset[step.terminal] = this.across(step, this.offset, 0);
  }

  /** Voltage at the far end of a step, from that at its near one. */
  private across(
    { edge: at, from, forwards }: Step,
    values: Float64Array,
    dropped: number,
  ): number {
    const edge = this.edges[at]!;
    if (edge.sort === "source") return this.numberOf("voltage", edge) - dropped;
    const gain = this.gain(edge);
    const near = values[from]!;
    return forwards
      ? gain * near - this.drop(edge) - dropped
      : (near + this.drop(edge) + dropped) / gain;
  }

  private enterMatrix(right: Float64Array): void {
    const { plan, edges, offset, constant, slope } = this;
    const { diagonal, entries } = plan.factor;
    diagonal.fill(0);
    entries.fill(0);
    plan.branches.forEach((at, branch) => {
      const edge = edges[at]!;
      const conductance = 1 / this.numberOf("resistance", edge);
      const to = plan.unknownOf[edge.to]!;
      if (edge.sort === "source") {
        if (to === NO_UNKNOWN) return;
        diagonal[to]! += conductance;
        right[to]! += conductance * (this.numberOf("voltage", edge) - offset[edge.to]!);
        return;
      }
      const gain = this.gain(edge);
      const from = plan.unknownOf[edge.from]!;
      const driven = conductance * (gain * offset[edge.from]! - offset[edge.to]! - this.drop(edge));
      if (from !== NO_UNKNOWN) {
        diagonal[from]! += conductance * gain * gain;
        right[from]! -= gain * driven;
      }
      if (to !== NO_UNKNOWN) {
        diagonal[to]! += conductance;
        right[to]! += driven;
      }
      const entry = plan.entryOf[branch]!;
      if (entry >= 0) entries[entry]! -= conductance * gain;
      else if (from !== NO_UNKNOWN && from === to) diagonal[to]! -= 2 * conductance * gain;
    });
    for (let place = 0; place < slope.length; place++) {
      const unknown = plan.unknownOf[place]!;
      if (unknown === NO_UNKNOWN) continue;
      diagonal[unknown]! += slope[place]!;
      right[unknown]! -= constant[place]! + slope[place]! * offset[place]!;
    }
  }

  /** Of branches outside the tree from their voltages, of all others from what is drawn behind them. */
  private findCurrents(drawn = (place: number) => this.drawnAt(place)): void {
    const { edges, current, plan, blocked } = this;
    const need = Float64Array.from(this.voltage, (_, place) => drawn(place));
    const enter = (at: number): void => {
      const edge = edges[at]!;
      if (edge.from !== GROUND) need[edge.from]! += this.gain(edge) * current[at]!;
      need[edge.to]! -= current[at]!;
    };
    edges.forEach((_, at) => blocked[at] && (current[at] = 0));
    for (const at of plan.chords) {
      current[at] = this.driving(edges[at]!) / this.numberOf("resistance", edges[at]!);
      enter(at);
    }
    for (let index = plan.tree.length - 1; index >= 0; index--) {
      const { edge, terminal, forwards } = plan.tree[index]!;
      const wanted = need[terminal]!;
      // Never -0, which some programs show as such.
      current[edge] = (forwards ? wanted : -wanted / this.gain(edges[edge]!)) || 0;
      enter(edge);
    }
  }

  private drawnAt(place: number): number {
    return this.constant[place]! + this.slope[place]! * this.voltage[place]!;
  }

  /** Opens what would carry current backwards, closes what has voltage across it. @returns whether anything turned. */
  private turn(all: boolean): boolean {
    const { edges, current, blocked } = this;
    let scale = 0;
    for (const edge of edges)
      if (!this.isWithoutResistance(edge))
        scale = Math.max(
          scale,
          (Math.abs(this.before(edge)) + this.voltage[edge.to]!) /
            this.numberOf("resistance", edge),
        );
    let turned = false;
    for (let at = 0; at < edges.length; at++) {
      const edge = edges[at]!;
      if (edge.sort === "joint" || !this.feed.numbers.oneWay[edge.row]) continue;
      const opens = !blocked[at] && current[at]! < -ROUNDING * scale;
      const closes = blocked[at] && this.driving(edge) > ROUNDING * this.voltage[edge.to]!;
      if (!opens && !closes) continue;
      blocked[at] = opens ? 1 : 0;
      turned = true;
      if (!all) break;
    }
    return turned;
  }

  /** Exact sums: what hangs on the terminals from its equations, then currents inward and voltages outward. */
  private settle(): void {
    const { state, feed, island, terminals, edges, current, voltage } = this;
    settleRadial(island, terminals, feed);
    const drawn = Float64Array.from(terminals, (row) => state.outputCurrent[row]!);
    island.drawing.forEach(({ terminal }, at) => {
      drawn[terminal]! += this.countedPower(at) / voltage[terminal]!;
    });
    this.findCurrents((place) => drawn[place]!);
    for (const step of this.plan.tree) {
      const { edge } = step;
      const resistance = resistanceOf(edges[edge]!, feed.numbers);
      voltage[step.terminal] = this.across(step, voltage, resistance * current[edge]!);
    }
    terminals.forEach((row, place) => (state.outputVoltage[row] = voltage[place]!));
    edges.forEach((edge, at) => this.enterRow(edge, at));
    island.drawing.forEach(({ row, terminal, sort }, at) => {
      const passed = sort === "ratio" ? feed.numbers.ratio[row]! * state.outputCurrent[row]! : 0;
      state.inputVoltage[row] = voltage[terminal]!;
      state.inputCurrent[row] = passed + this.countedPower(at) / voltage[terminal]!;
    });
    this.enterBuses();
  }

  private enterRow(edge: Edge, at: number): void {
    const { state, current, voltage, blocked } = this;
    const { row, sort } = edge;
    if (sort === "joint") return;
    state.outputCurrent[row] = current[at]!;
    state.outputVoltage[row] = voltage[edge.to]!;
    state.blocked[row] = blocked[at]!;
    if (blocked[at]) state.carries[row] = 0;
    else if (!this.dropsCount) state.carries[row] = 0;
    if (sort === "source") {
      const { equation } = this.feed.numbers;
      if (equation[row] !== EQUATION.supply) return;
      state.inputVoltage[row] = this.numberOf("voltage", edge);
      state.inputCurrent[row] = current[at]!;
      return;
    }
    state.inputVoltage[row] = this.before(edge);
    state.inputCurrent[row] = this.gain(edge) * current[at]!;
  }

  /** A bus passes on what arrives. */
  private enterBuses(): void {
    const { state, edges, current, terminals, voltage } = this;
    const arriving = new Map<number, number[]>();
    edges.forEach(({ row, sort }, at) => {
      if (sort === "joint") arriving.set(row, [...(arriving.get(row) ?? []), current[at]!]);
      // It draws its current at one end and gives it to the other.
      if (sort === "tie") state.shares.set(row, [current[at]!, -current[at]! || 0]);
    });
    terminals.forEach((row, place) => {
      const shares = arriving.get(row);
      if (shares === undefined) return;
      state.shares.set(row, shares);
      const sum = shares.reduce((total, share) => total + share, 0);
      state.inputVoltage[row] = voltage[place]!;
      state.inputCurrent[row] = state.outputCurrent[row] = sum;
    });
  }

  /** Nothing draws, and nothing circulates. */
  private isAtRest(): boolean {
    const scale = Math.max(
      ...this.edges.map((edge) =>
        this.isWithoutResistance(edge)
          ? 0
          : this.voltage[edge.to]! / this.numberOf("resistance", edge),
      ),
    );
    return this.current.every((current) => Math.abs(current) <= ROUNDING * scale);
  }

  private lossesSettled(): boolean {
    const { numbers, state } = this.feed;
    let settled = true;
    this.island.drawing.forEach(({ row, terminal, sort }, at) => {
      if (sort !== "ratio") return;
      const current = state.outputCurrent[row]!;
      const passed = numbers.ratio[row]! * this.voltage[terminal]! * current;
      const loss =
        drawnLoss(row, current, numbers) -
        numbers.fixedLoss[row]! +
        passed * (1 / numbers.efficiency[row]! - 1);
      if (Math.abs(loss - this.followingLoss[at]!) > LOSS_SETTLED * Math.abs(passed))
        settled = false;
      this.followingLoss[at] = loss;
    });
    return settled;
  }

  private leastPivot() {
    const { diagonal, plan } = this.plan.factor;
    let unknown = -1;
    let pivot = Infinity;
    for (let at = 0; at < plan.size; at++)
      if (diagonal[at]! < pivot) [unknown, pivot] = [at, diagonal[at]!];
    return { pivot, row: unknown < 0 ? this.terminals[0]! : this.rowOfUnknown(unknown) };
  }

  private rowOfUnknown(unknown: number): number {
    return this.terminals[this.plan.unknownOf.indexOf(unknown)] ?? this.terminals[0]!;
  }

  private answer(iterations: number): IslandAnswer | Failed {
    // At the answer itself: its pivots are the proof.
    const failedRow = this.drawAll();
    const failed = failedRow === NO_PARENT ? this.solveVoltages() : undefined;
    if (failedRow !== NO_PARENT || failed !== undefined)
      return {
        outcome: "collapsed",
        row: failed === undefined ? failedRow : this.rowOfUnknown(failed),
        iterations,
      };
    const least = this.leastPivot();
    const loaded = this.plan.factor.diagonal.slice();
    const residual = this.mismatch();
    this.slope.fill(0);
    this.constant.fill(0);
    let divisor = leastDivisor(this.island.radial, this.feed).divisor;
    // Without load a part that no supply reaches has no matrix to compare with.
    if (this.solveVoltages() === undefined) {
      const unloaded = this.plan.factor.diagonal;
      loaded.forEach((pivot, at) => (divisor = Math.min(divisor, pivot / unloaded[at]!)));
    }
    const { numbers } = this.feed;
    const unproven = this.island.drawing.flatMap(({ row, sort }) =>
      sort === "ratio" && follows(row, numbers) ? [row] : [],
    );
    return {
      iterations,
      residual,
      leastDivisor: divisor,
      leastPivot: least.pivot,
      row: least.row,
      unproven,
      claim: unproven.length > 0 ? "not proven" : "upper",
      floor: new Map(),
      blocked: this.edges.flatMap(({ row }, at) => (this.blocked[at] ? [row] : [])),
    };
  }

  /** Largest step that is left, as a part of the voltage. */
  private mismatch(): number {
    let largest = 0;
    this.terminals.forEach((row, place) => {
      const settled = this.state.outputVoltage[row]!;
      largest = Math.max(largest, Math.abs(this.voltage[place]! - settled) / settled);
      this.voltage[place] = settled;
    });
    return largest;
  }
}

function follows(row: number, { linearLoss, quadraticLoss, efficiency }: SolvableFeed["numbers"]) {
  return linearLoss[row] !== 0 || quadraticLoss[row] !== 0 || efficiency[row] !== 1;
}

function settleRadial({ radial }: Island, terminals: Int32Array, feed: SolvableFeed): void {
  for (const row of terminals) feed.state.outputCurrent[row] = 0;
  settleCurrents(radial, feed);
}
