/** Opens the workbench: fetches its spreadsheet, puts a plan into it as the workbook that it starts with. */
import { plainNames } from "../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { HostError } from "./host.js";
import { type WorkbenchHost, workbenchHost } from "./workbench-host.js";
import { dressingChanges } from "./workbench-plan-changes.js";
import { workbookData } from "./workbench-snapshot.js";
import {
  openSpreadsheet,
  type Spreadsheet,
  type UniverVendor,
} from "./workbench-spreadsheet.js";

export interface VendorAddresses {
  readonly script: string;
  readonly style: string;
}

/** `spreadsheet` is what is behind the host; the page itself needs only the host. */
export interface OpenedWorkbench {
  readonly host: WorkbenchHost;
  readonly spreadsheet: Spreadsheet;
}

const NAMESPACE = "FEED";

/** Resolves when every formula of the plan is calculated. */
export async function openWorkbench(
  container: HTMLElement,
  plan: WorkbookPlan,
  addresses: VendorAddresses,
): Promise<OpenedWorkbench> {
  const vendor = await fetchVendor(addresses);
  const used = plainNames(plan, NAMESPACE);
  const spreadsheet = openSpreadsheet(
    vendor,
    container,
    workbookData(plan, used),
    NAMESPACE,
  );
  const calculated = spreadsheet.api
    .getFormula()
    .onCalculationResultApplied(60_000);
  dress(spreadsheet, plan);
  await calculated;
  return { host: workbenchHost(spreadsheet, NAMESPACE), spreadsheet };

  function dress({ injector, workbook }: Spreadsheet, opened: WorkbookPlan) {
    const commands = injector.get(vendor.ICommandService);
    const changes = dressingChanges({
      plan: opened,
      used,
      unitId: workbook.getId(),
      sheetIds: Object.fromEntries(opened.sheets.map(({ key }) => [key, key])),
    });
    // Not an undo step: this is what the workbench starts with.
    for (const { redo } of changes)
      commands.syncExecuteCommand(redo.id, redo.params);
  }
}

async function fetchVendor({
  script,
  style,
}: VendorAddresses): Promise<UniverVendor> {
  const [vendor] = await Promise.all([
    import(/* webpackIgnore: true */ script) as Promise<UniverVendor>,
    fetchStyle(style),
  ]);
  return vendor;
}

function fetchStyle(address: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = address;
    link.onload = () => resolve();
    link.onerror = () =>
      reject(new HostError(`${address} could not be loaded`));
    document.head.append(link);
  });
}
