/** Opens the workbench: fetches its spreadsheet and puts the workbook into it that it starts with. */
import type { IWorkbookData } from "@univerjs/core";
import { plainNames } from "../../../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../../../src/plans/sheet-plan.js";
import type { WorkbookSnapshot } from "../../files/workbook-snapshot.js";
import { HostError } from "../../host.js";
import { followColourScheme } from "../display/colour-scheme.js";
import { fitFrozenLines } from "../display/frozen.js";
import { listenToEdits } from "../edits.js";
import { dataFromSnapshot } from "./from-snapshot.js";
import { type WorkbenchHost, workbenchHost } from "../workbench-host.js";
import { planPictures } from "../insertion.js";
import { dressingChanges, type PlanPictures } from "../plan-changes.js";
import { savedData } from "./saved.js";
import { workbookData } from "./snapshot.js";
import { openSpreadsheet, type Spreadsheet, type UniverVendor } from "../spreadsheet.js";
import { type SnapshotTaken, takeSnapshot } from "./to-snapshot.js";

export interface VendorAddresses {
  readonly script: string;
  readonly style: string;
}

/** What the workbench starts with. */
export type OpeningContent =
  | { readonly kind: "plan"; readonly plan: WorkbookPlan }
  | {
      readonly kind: "snapshot";
      readonly snapshot: WorkbookSnapshot;
      readonly title: string;
    }
  /** As `save` of an earlier workbench gave it. */
  | { readonly kind: "saved"; readonly saved: string };

/** `spreadsheet` is what is behind the host; the page itself does not reach for it. */
export interface OpenedWorkbench {
  readonly host: WorkbenchHost;
  readonly spreadsheet: Spreadsheet;
  /** Everything in the workbook, to be opened again by this version. */
  save(): string;
  /** What of the workbook a file can hold, when all of it is calculated. */
  takeSnapshot(): Promise<SnapshotTaken>;
  readonly title: string;
  /** Called after every change to what the workbook holds. Returns its stop. */
  onEdit(listener: () => void): () => void;
}

const NAMESPACE = "FEED";

/**
 * Resolves when every formula of the workbook is calculated.
 * @throws {HostError} when there is no workbook in what was saved; the container is empty then.
 */
export async function openWorkbench(
  container: HTMLElement,
  content: OpeningContent,
  addresses: VendorAddresses,
): Promise<OpenedWorkbench> {
  const vendor = await fetchVendor(addresses);
  const data = dataOf(content);
  const spreadsheet = openSpreadsheet(vendor, container, data, NAMESPACE);
  try {
    const calculated = spreadsheet.calculation.settled();
    if (content.kind === "plan") dress(spreadsheet, content.plan, await planPictures(content.plan));
    await calculated;
  } catch (error) {
    spreadsheet.univer.dispose();
    container.replaceChildren();
    throw error;
  }
  const host = workbenchHost(spreadsheet, NAMESPACE);
  const frozen = fitFrozenLines(spreadsheet, container);
  const stopFollowing = followColourScheme(spreadsheet);
  return {
    host: {
      ...host,
      dispose() {
        frozen.dispose();
        stopFollowing();
        host.dispose();
      },
    },
    spreadsheet,
    save: () => JSON.stringify(frozen.asKept(() => spreadsheet.workbook.save())),
    async takeSnapshot() {
      // What was typed last may not have begun to be calculated.
      await spreadsheet.calculation.settled();
      return frozen.asKept(() => takeSnapshot(spreadsheet));
    },
    title: spreadsheet.workbook.getName(),
    onEdit: (listener) => listenToEdits(spreadsheet, listener),
  };
}

function dataOf(content: OpeningContent): Partial<IWorkbookData> {
  switch (content.kind) {
    case "plan":
      return workbookData(content.plan, plainNames(content.plan, NAMESPACE));
    case "snapshot":
      return dataFromSnapshot(content.snapshot, content.title);
    case "saved":
      return savedData(content.saved);
  }
}

/** Validations, rules, notes and pictures; not an undo step: this is what the workbench starts with. */
function dress(
  { vendor, injector, workbook }: Spreadsheet,
  plan: WorkbookPlan,
  pictures: PlanPictures,
): void {
  const commands = injector.get(vendor.ICommandService);
  const changes = dressingChanges({
    plan,
    used: plainNames(plan, NAMESPACE),
    unitId: workbook.getId(),
    sheetIds: Object.fromEntries(plan.sheets.map(({ key }) => [key, key])),
    pictures,
  });
  for (const { redo } of changes) commands.syncExecuteCommand(redo.id, redo.params);
}

async function fetchVendor({ script, style }: VendorAddresses): Promise<UniverVendor> {
  const [vendor] = await Promise.all([
    import(/* webpackIgnore: true */ script) as Promise<UniverVendor>,
    fetchStyle(style),
  ]);
  return vendor;
}

function fetchStyle(address: string): Promise<void> {
  const isThere = [...document.styleSheets].some(({ href }) => href === address);
  if (isThere) return Promise.resolve();
  return new Promise((resolve, reject) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = address;
    link.onload = () => resolve();
    link.onerror = () => reject(new HostError(`${address} could not be loaded`));
    document.head.append(link);
  });
}
