/**
 * Microsoft's own Office.js for Excel on the web, unchanged, in the test's own process: every request that it would send
 * to Excel goes to a double instead. The npm copy of the library ends at ExcelApi 1.15.
 */
import { readFileSync } from "node:fs";
import { runInThisContext } from "node:vm";
import { addNewerMembers, waitsForEdit } from "./double/newer-library.js";

const LIBRARY = "excel-web-16.00.debug.js";

/** One request: what to do (`Actions`) on which objects (`ObjectPaths`). */
export interface WireRequest {
  readonly Actions: readonly WireAction[];
  readonly ObjectPaths: Readonly<Record<string, WirePath>>;
}

export interface WireAction {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: WireArguments;
  readonly QueryInfo?: { readonly Select?: readonly string[] };
}

export interface WirePath {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: WireArguments;
  /** Name of the class, which the library adds for tests. */
  readonly T?: string;
}

export interface WireArguments {
  readonly Arguments?: readonly unknown[];
  /** For each argument that is an object of the workbook its path, 0 for the others. */
  readonly ReferencedObjectPathIds?: readonly number[];
}

export interface WireError {
  readonly Code: string;
  readonly Message: string;
  readonly Location: string;
}

export interface WireResponse {
  readonly Results: readonly { ActionId: number; Value: unknown }[];
  readonly Error?: WireError & { readonly ActionIndex: number };
}

/** @param flags How the library wants the request done. */
export type Answer = (request: WireRequest, flags?: number) => WireResponse;

interface Library {
  OSF: {
    DDA: {
      RichApi: {
        executeRichApiRequestAsync: (
          message: readonly unknown[],
          callback: (result: unknown) => void,
        ) => void;
      };
    };
  };
  OfficeExtension: {
    _internalConfig: { appendTypeNameToObjectPathInfo: boolean };
    _testSetRichApiMessageReadyImpl: (impl: () => Promise<void>) => void;
    _testTriggerRichApiMessageEvent: (message: unknown) => void;
  };
  Office: object;
}

let answering: Answer | undefined;

/** The requirement sets, the platform and the startup behaviour that the page pretends to have. */
export interface PretendedOffice {
  /** ExcelApi up to this minor version: 12 for the base set. */
  excelApi: number;
  platform: string;
  /** What was asked for, in order. */
  readonly startups: unknown[];
  /** The add-in's own, as it sees them, and as the workbook holds them when it is opened again. */
  settings: Map<string, unknown>;
  saved: ReadonlyMap<string, unknown>;
  setStartup: (behaviour: unknown) => Promise<void>;
  /** Until when a cell is being edited; undefined while none is. */
  editing: Promise<void> | undefined;
}

export const office: PretendedOffice = {
  excelApi: 12,
  platform: "PC",
  startups: [],
  settings: new Map(),
  saved: new Map(),
  setStartup: async () => undefined,
  editing: undefined,
};

/** Loads the library once and lets `answer` answer its requests from now on. */
export function answerOffice(answer: Answer): void {
  answering = answer;
  if (!("Excel" in globalThis)) loadLibrary();
}

export function tellOffice(eventType: number, message: unknown): void {
  library().OfficeExtension._testTriggerRichApiMessageEvent({
    entries: [
      {
        messageCategory: 65536,
        messageType: eventType,
        targetId: "Workbook",
        message: JSON.stringify(message),
      },
    ],
  });
}

function library(): Library {
  return globalThis as unknown as Library;
}

function loadLibrary(): void {
  Object.assign(globalThis, pageGlobals());
  runInThisContext(readFileSync(`node_modules/@microsoft/office-js/dist/${LIBRARY}`, "utf8"));
  const { OSF, OfficeExtension, Office } = library();
  OSF.DDA ??= {} as Library["OSF"]["DDA"];
  OSF.DDA.RichApi ??= {} as Library["OSF"]["DDA"]["RichApi"];
  OSF.DDA.RichApi.executeRichApiRequestAsync = (message, callback) => {
    const request = JSON.parse(String(message[4])) as WireRequest;
    const flags = Number(message[6]);
    const send = (response: WireResponse) => {
      const body = JSON.stringify({ ...response, TraceIds: [] });
      // Never before the call has returned, as over a wire.
      setTimeout(() => callback({ status: "succeeded", value: { data: [200, [], body] } }));
    };
    const answer = () => {
      if (!answering) throw new Error("nothing answers Office.js");
      send(answering(request, flags));
    };
    if (office.editing === undefined) answer();
    else if (waitsForEdit(flags)) void office.editing.then(answer);
    else send(IN_CELL_EDIT);
  };
  OfficeExtension._internalConfig.appendTypeNameToObjectPathInfo = true;
  OfficeExtension._testSetRichApiMessageReadyImpl(async () => undefined);
  addNewerMembers();
  // What belongs to the page around Excel, not to the library for its objects.
  library().Office = Object.create(Office, {
    context: {
      value: {
        requirements: { isSetSupported },
        get platform() {
          return office.platform;
        },
        document: {
          settings: {
            get: (name: string) => office.settings.get(name) ?? null,
            set: (name: string, value: unknown) => void office.settings.set(name, value),
            remove: (name: string) => void office.settings.delete(name),
            saveAsync(done: (result: { readonly status: string }) => void) {
              office.saved = new Map(office.settings);
              done({ status: "succeeded" });
            },
          },
        },
      },
    },
    PlatformType: { value: { PC: "PC", OfficeOnline: "OfficeOnline" } },
    addin: { value: { setStartupBehavior, getStartupBehavior } },
    StartupBehavior: { value: { load: "load", none: "none" } },
    AsyncResultStatus: { value: { Succeeded: "succeeded" } },
  }) as object;
}

/** "Delay execution while cell is being edited": a request that does not wait fails. */
const IN_CELL_EDIT: WireResponse = {
  Results: [],
  Error: {
    ActionIndex: 0,
    Code: "InvalidOperationInCellEditMode",
    Message: "Excel is in cell-editing mode",
    Location: "",
  },
};

function isSetSupported(set: string, version: string): boolean {
  if (set === "SharedRuntime" || set === "DelayForCellEdit") return true;
  return set === "ExcelApi" && Number(version.split(".")[1]) <= office.excelApi;
}

async function getStartupBehavior(): Promise<unknown> {
  return office.startups.at(-1) ?? "none";
}

function setStartupBehavior(behaviour: unknown): Promise<void> {
  office.startups.push(behaviour);
  return office.setStartup(behaviour);
}

/** As much of a page as the library touches while it starts. */
function pageGlobals() {
  const script = {
    src: `https://localhost/${LIBRARY}`,
    getAttribute: () => null,
  };
  return {
    window: globalThis,
    self: globalThis,
    history: {},
    navigator: { userAgent: "" },
    location: { href: "https://localhost/", search: "", hash: "" },
    addEventListener: () => undefined,
    document: {
      readyState: "complete",
      addEventListener: () => undefined,
      createElement: () => ({ setAttribute: () => undefined, style: {} }),
      getElementsByTagName: (name: string) =>
        name === "script" ? [script] : [{ appendChild: () => undefined }],
    },
  };
}
