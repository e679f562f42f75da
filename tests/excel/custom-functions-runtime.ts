/**
 * Microsoft's own runtime for custom functions, as office.js loads it into the page, in a context of its own; the test
 * plays the spreadsheet at the other end of its bridge. The file is the one of the development package, unchanged.
 */
import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";
import { build } from "esbuild";

const RUNTIME = "custom-functions-runtime.debug.js";

/** How long it gathers results before it hands them over, and how long after that the next ones. Here both are over at once. */
const GATHERING_MS: readonly number[] = [50, 500];

/** What the runtime sends back for one call. */
export type CallResult =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly message: string; readonly code: number };

/** The runtime's own numbers for the errors that a cell shows. */
export const SHOWN = {
  1: "#N/A",
  2: "an exception that is no error of the runtime",
  5: "#DIV/0!",
  6: "#NUM!",
  7: "#VALUE!",
  8: "#NULL!",
} as const;

export interface CustomFunctionsPage {
  readonly globals: Record<string, unknown>;
  /** Calls a function as the spreadsheet does, errors in arguments allowed. */
  call(id: string, parameters: readonly unknown[]): Promise<CallResult>;
  /** Ends its timers: the runtime waits 35 s for scripts that this page never loads, and then throws. */
  close(): void;
}

/** An error as the spreadsheet hands it over inside an argument. */
export function errorArgument(code: string) {
  return { type: "CustomFunctionError", code };
}

export async function functionsScript(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: ["functions/main.ts"],
    bundle: true,
    format: "iife",
    write: false,
    target: "es2022",
  });
  return outputFiles[0]?.text ?? "";
}

/** A page on which the runtime and then the functions script have run. */
export function customFunctionsPage(script: string): CustomFunctionsPage {
  const waiting = new Map<number, (result: CallResult) => void>();
  const bridge: Bridge = {
    sendMessageToHost: (text) => answer(JSON.parse(text) as Sent),
  };
  function answer({ id, message: { body } }: Sent) {
    for (const { Name, ArgumentInfo } of body.Actions) {
      if (Name !== "SetInvocationArrayResults") continue;
      for (const [call, ok, value, code = 0] of ArgumentInfo?.Arguments[0] ?? [])
        waiting.get(call)?.(
          ok ? { ok, value } : { ok, message: String(value), code: code as number },
        );
    }
    const response = { statusCode: 200, headers: {}, body: { Results: [] } };
    bridge.onMessageFromHost?.(JSON.stringify({ id, type: 1, message: response }));
  }
  const timers = new Set<NodeJS.Timeout>();
  const globals = pageGlobals(bridge, (act, delay) => {
    const timer = setTimeout(act, GATHERING_MS.includes(delay ?? 0) ? 0 : delay);
    timers.add(timer);
    return timer;
  });
  const context = createContext(globals);
  runInContext(readFileSync(runtimePath(), "utf8"), context);
  runInContext(script, context);
  let calls = 0;
  return {
    globals,
    call(id, parameters) {
      const call = (calls += 1);
      const result = new Promise<CallResult>((resolve) => waiting.set(call, resolve));
      const entry = [1, 1000, "", [call, id, parameters, "Sheet1!A1", 4], 0];
      bridge.onMessageFromHost?.(JSON.stringify({ type: 3, message: { entries: [entry] } }));
      return result;
    },
    close: () => timers.forEach(clearTimeout),
  };
}

interface Bridge {
  readonly sendMessageToHost: (text: string) => void;
  onMessageFromHost?: (text: string) => void;
}

type SentResult = readonly [id: number, ok: boolean, value: unknown, code?: unknown];

interface Sent {
  readonly id: number;
  readonly message: {
    readonly body: {
      readonly Actions: readonly {
        readonly Name: string;
        readonly ArgumentInfo?: {
          readonly Arguments: readonly [readonly SentResult[]];
        };
      }[];
    };
  };
}

function runtimePath(): string {
  return `node_modules/@microsoft/office-js/dist/${RUNTIME}`;
}

/** As much of a page as the runtime touches while it starts. */
function pageGlobals(
  bridge: Bridge,
  later: (act: () => void, delay?: number) => NodeJS.Timeout,
): Record<string, unknown> {
  const script = {
    src: `https://localhost/${RUNTIME}`,
    getAttribute: () => null,
  };
  const globals: Record<string, unknown> = {
    console,
    setTimeout: later,
    clearTimeout,
    history: {},
    location: { href: "https://localhost/", search: "", hash: "" },
    navigator: { userAgent: "" },
    addEventListener: () => undefined,
    document: {
      readyState: "loading",
      addEventListener: () => undefined,
      createElement: () => ({ setAttribute: () => undefined, style: {} }),
      getElementsByTagName: (name: string) =>
        name === "script" ? [script] : [{ appendChild: () => undefined }],
    },
    _richApiNativeBridge: bridge,
  };
  globals["window"] = globals;
  globals["self"] = globals;
  return globals;
}
