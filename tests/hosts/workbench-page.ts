/** What runs in the browser page of the contract test: a workbench with one empty sheet, reached from the test by name. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { CellRange, Host } from "../../taskpane/hosts/host.js";
import {
  openWorkbench,
  type VendorAddresses,
} from "../../taskpane/hosts/workbench/snapshots/opening.js";

/** An answer that survives the way to the test: errors as data. */
export type Answer =
  | { readonly value: unknown }
  | {
      readonly error: {
        readonly name: string;
        readonly message: string;
        readonly at?: CellRange;
      };
    };

export interface ContractPage {
  call(method: string, args: readonly unknown[]): Promise<Answer>;
  features: readonly string[];
  sheetNames(): string[];
  undo(): Promise<void>;
  defineConstant(name: string, value: number): void;
  noteAt(range: CellRange): string | undefined;
  breakNextInsertion(): void;
}

declare global {
  var openContractPage: (addresses: VendorAddresses) => Promise<void>;
  var contractPage: ContractPage;
  /** Given by the test. */
  var told: (event: "change" | "selection") => void;
}

const EMPTY: WorkbookPlan = {
  id: "empty",
  title: "Empty",
  stem: "Empty",
  names: [],
  sheets: [
    {
      key: "start",
      name: "Start",
      columnWidths: [],
      frozenRows: 0,
      cells: [],
      merges: [],
      validations: [],
      conditionalFormats: [],
      pictures: [],
    },
  ],
};

let close = async () => {};

globalThis.openContractPage = async (addresses) => {
  const container = document.getElementById("grid");
  if (!container) throw new Error("the page has no grid");
  await close();
  const opened = await openWorkbench(container, { kind: "plan", plan: EMPTY }, addresses);
  const { host, spreadsheet } = opened;
  const { workbook, api, injector, vendor } = spreadsheet;
  const listeners = new Map<string, () => void>();
  close = async () => {
    for (const stop of listeners.values()) stop();
    await host.atRest();
    host.dispose();
    container.replaceChildren();
  };
  const methods: Record<string, (...args: never[]) => unknown> = {
    insert: host.insert,
    read: host.read,
    sheets: host.sheets,
    used: host.used,
    formulaCells: host.formulaCells,
    names: host.names,
    selection: host.selection,
    goTo: host.goTo,
    write: host.write,
    edit: host.edit,
    listenToChanges: () =>
      listeners.set(
        "change",
        host.onChange(() => told("change")),
      ),
    listenToSelection: () =>
      listeners.set(
        "selection",
        host.onSelection(() => told("selection")),
      ),
    async savedCells() {
      const { snapshot } = await opened.takeSnapshot();
      return snapshot.sheets[0]?.cells;
    },
    stop: (event: string) => listeners.get(event)?.(),
  };
  globalThis.contractPage = {
    features: (["notes", "pictures", "charts", "single undo"] as const).filter((feature) =>
      (host as Host).can(feature),
    ),
    async call(method, args) {
      try {
        const run = methods[method];
        if (!run) throw new Error(`the page has no ${method}`);
        return { value: await run(...(args as never[])) };
      } catch (error) {
        const { name, message, at } = error as Error & { at?: CellRange };
        return { error: { name, message, ...(at && { at }) } };
      }
    },
    sheetNames: () => workbook.getSheets().map((sheet) => sheet.getSheetName()),
    async undo() {
      await api.undo();
      await spreadsheet.calculation.settled();
    },
    defineConstant: (name, value) => void workbook.insertDefinedName(name, `=${value}`),
    noteAt: ({ sheet, address }) =>
      workbook.getSheetByName(sheet)?.getRange(address).getNote()?.note,
    breakNextInsertion() {
      const commands = injector.get(vendor.ICommandService);
      const run = commands.syncExecuteCommand.bind(commands);
      let sheets = 0;
      commands.syncExecuteCommand = ((id: string, ...rest: never[]) => {
        if (id === "sheet.mutation.insert-sheet") sheets += 1;
        if (sheets < 2) return run(id, ...rest);
        commands.syncExecuteCommand = run;
        throw new Error("the second sheet cannot be written");
      }) as typeof run;
    },
  };
};
