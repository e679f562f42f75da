/**
 * Operating points and transients by ngspice (compiled to WebAssembly), a reference that shares nothing with the engine.
 *
 * The engine package has two traps, both closed here: a failed run hands over the results of the run before it, told
 * by the title; and a netlist that ngspice cannot read at all stops its thread for good, so it runs in a thread of its
 * own that is ended after a while.
 */
import { Worker } from "node:worker_threads";

/** Digits beyond what tests ask for; `gmin` is the conductance ngspice adds across its own devices. */
export const NGSPICE_OPTIONS = ".options reltol=1e-10 abstol=1e-12 vntol=1e-10 gmin=1e-15";

const PATIENCE_MS = 15_000;

/**
 * What ngspice does where its iteration from the given voltages finds nothing (ngspice's README.optran): as it does by
 * itself, or nothing. The setting outlasts a run, so that every run makes its own.
 */
const WAYS = { all: "optran 1 1 1 100n 10u 0", none: "optran 1 0 0 0 0 0" };

interface Reply {
  readonly title: string;
  readonly values: readonly (readonly [name: string, values: readonly number[]])[];
  readonly printed: string;
}

const THREAD = `
const { parentPort } = require("node:worker_threads");
const ready = import("eecircuit-engine").then(async ({ Simulation }) => {
  const simulation = new Simulation();
  await simulation.start();
  return simulation;
});
parentPort.on("message", async (netlist) => {
  const simulation = await ready;
  simulation.setNetList(netlist);
  const { header = "", data = [] } = await simulation.runSim();
  parentPort.postMessage({
    title: /^Title: (.*)$/m.exec(header)?.[1] ?? "",
    values: data.map(({ name, values }) => [name, [...values]]),
    printed: simulation.getError().join("\\n"),
  });
});
`;

/** Lines after which ngspice goes on, or seems to, with something other than the netlist. */
const REFUSED = /^Error|aborted|ignored|unknown parameter|no such|can't find/im;

let thread: Worker | undefined;
let runs = 0;
let queue: Promise<unknown> = Promise.resolve();

/**
 * Node voltages as `v(name)` and the currents of voltage sources as `i(name)` (into the positive terminal), in full
 * double precision. Names come back in lower case.
 *
 * @param netlist Elements, `.options` and `.nodeset`; the title, `.op` and `.end` are added here.
 * @throws {Error} with what ngspice printed, where it finds no operating point or passes over a line.
 */
export function operatingPoint(
  netlist: string,
  patienceMs = PATIENCE_MS,
): Promise<Record<string, number>> {
  const answer = queue.then(() => run(netlist, patienceMs));
  queue = answer.catch(() => undefined);
  return answer;
}

/** As `operatingPoint`, and only near the voltages of its `.nodeset` lines: it looks for no other way where none is. */
export function nearbyOperatingPoint(netlist: string): Promise<Record<string, number>> {
  const answer = queue.then(() => run(netlist, PATIENCE_MS, "none"));
  queue = answer.catch(() => undefined);
  return answer;
}

/**
 * Node voltages and currents over time, by the same names, `time` among them.
 *
 * @param netlist Elements, `.options` and `.ic`; the title and `.end` are added here.
 * @param analysis Step, end, start and longest step, as `.tran` takes them: `1u 1m 0 1u uic`.
 * @throws {Error} with what ngspice printed, where it passes over a line or does not reach the end.
 */
export function transient(
  netlist: string,
  analysis: string,
  patienceMs = PATIENCE_MS,
): Promise<Record<string, readonly number[]>> {
  const answer = queue.then(() => wave(`${netlist.trim()}\n.tran ${analysis}`, patienceMs));
  queue = answer.catch(() => undefined);
  return answer;
}

async function run(
  netlist: string,
  patienceMs: number,
  ways: keyof typeof WAYS = "all",
): Promise<Record<string, number>> {
  const waves = await wave(`${netlist.trim()}\n.op`, patienceMs, ways);
  return Object.fromEntries(
    Object.entries(waves).map(([name, [value]]) => [name, value ?? Number.NaN]),
  );
}

async function wave(
  netlist: string,
  patienceMs: number,
  ways: keyof typeof WAYS = "all",
): Promise<Record<string, readonly number[]>> {
  const title = `circuit ${++runs}`;
  const control = `.control\n${WAYS[ways]}\n.endc`;
  const reply = await ask(`${title}\n${netlist}\n${control}\n.end\n`, patienceMs);
  if (reply.title !== title || REFUSED.test(reply.printed))
    throw new Error(`ngspice: ${reply.printed}\n${netlist}`);
  return Object.fromEntries(reply.values);
}

function ask(netlist: string, patienceMs: number): Promise<Reply> {
  // Its own streams: what ngspice prints belongs into an error, not between the lines of a test report.
  const worker = (thread ??= new Worker(THREAD, {
    eval: true,
    stdout: true,
    stderr: true,
  }));
  let stray = "";
  const listen = (text: Buffer) => (stray += text.toString());
  const { promise, resolve, reject } = withResolvers<Reply>();
  const giveUp = (why: string) => {
    thread = undefined;
    reject(new Error(`ngspice ${why}: ${stray}\n${netlist}`));
    void worker.terminate();
  };
  const timer = setTimeout(() => giveUp(`gave no answer in ${patienceMs / 1000} s`), patienceMs);
  worker.ref();
  worker.stderr.on("data", listen);
  worker.stdout.on("data", listen);
  worker.on("message", resolve);
  worker.on("error", (error) => giveUp(`failed, ${error.message}`));
  worker.on("exit", (code) => giveUp(`ended with ${code}`));
  worker.postMessage(netlist);
  return promise.finally(() => {
    clearTimeout(timer);
    worker.stderr.off("data", listen);
    worker.stdout.off("data", listen);
    for (const event of ["message", "error", "exit"]) worker.removeAllListeners(event);
    // The thread stays for the next run but does not keep the test process alive.
    worker.unref();
  });
}

function withResolvers<T>(): {
  promise: Promise<T>;
  resolve: (value: T) => void;
  reject: (reason: Error) => void;
} {
  let resolve!: (value: T) => void;
  let reject!: (reason: Error) => void;
  const promise = new Promise<T>((accept, refuse) => {
    resolve = accept;
    reject = refuse;
  });
  return { promise, resolve, reject };
}
