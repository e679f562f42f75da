/** Starts the workbench's spreadsheet in an element of the page, with the cell functions in it. */
import type { Injector, IWorkbookData, Plugin, PluginCtor, Univer } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import type { FWorkbook } from "@univerjs/preset-sheets-core";
import { type Calculation, watchCalculation } from "./calculation.js";
import { registerFunctions } from "./functions.js";
import { passOverGoneFormulas, passOverGoneSheets } from "./gone.js";
import { orderBySpills } from "./spill-order.js";

export type UniverVendor = typeof import("../vendor/univer.js");

export interface Spreadsheet {
  readonly vendor: UniverVendor;
  readonly univer: Univer;
  readonly api: FUniver;
  readonly injector: Injector;
  readonly workbook: FWorkbook;
  readonly calculation: Calculation;
}

/** Every formula is calculated on opening, whatever value is stored beside it. */
const FORCED = 0;

/** Plugins in the order of their presets; a later entry of the same name stands in the earlier one's place. */
type PluginEntry = PluginCtor<Plugin> | [PluginCtor<Plugin>, unknown?];

export function openSpreadsheet(
  vendor: UniverVendor,
  container: HTMLElement,
  data: Partial<IWorkbookData>,
  namespace: string,
): Spreadsheet {
  const univer = new vendor.Univer({
    logLevel: vendor.LogLevel.WARN,
    locale: vendor.LocaleType.EN_US,
    locales: { [vendor.LocaleType.EN_US]: words(vendor) },
  });
  for (const [plugin, config] of plugins(vendor, container))
    univer.registerPlugin(plugin, config as never);
  const api = vendor.FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  // The services that functions are registered with exist only once a workbook is being made.
  api.addEvent(api.Event.LifeCycleChanged, ({ stage }) => {
    if (stage !== api.Enum.LifecycleStages.Ready) return;
    registerFunctions(vendor, injector, namespace);
    orderBySpills(vendor, injector);
    passOverGoneFormulas(vendor, injector);
  });
  const workbook = api.createWorkbook(data);
  passOverGoneSheets(vendor, injector);
  const calculation = watchCalculation(
    injector.get(vendor.ICommandService),
    injector.get(vendor.FormulaCalculationSessionService),
  );
  return { vendor, univer, api, injector, workbook, calculation };
}

function words(vendor: UniverVendor) {
  return vendor.mergeLocales(
    vendor.coreWords,
    vendor.conditionalFormattingWords,
    vendor.dataValidationWords,
    vendor.drawingWords,
    vendor.findReplaceWords,
    vendor.noteWords,
  );
}

function plugins(
  vendor: UniverVendor,
  container: HTMLElement,
): Iterable<[PluginCtor<Plugin>, unknown]> {
  const presets = [
    vendor.UniverSheetsCorePreset({
      container,
      header: true,
      toolbar: false,
      footer: { menus: false },
      formula: { initialFormulaComputing: FORCED },
      sheets: { protectedRangeShadow: false },
    }),
    vendor.UniverSheetsDataValidationPreset({
      showEditOnDropdown: false,
      showSearchOnDropdown: false,
    }),
    vendor.UniverSheetsConditionalFormattingPreset(),
    vendor.UniverSheetsDrawingPreset(),
    vendor.UniverSheetsFindReplacePreset(),
    vendor.UniverSheetsNotePreset(),
  ];
  const byName = new Map<string, [PluginCtor<Plugin>, unknown]>();
  for (const entry of presets.flatMap(({ plugins }) => plugins as PluginEntry[])) {
    const [plugin, config] = Array.isArray(entry) ? entry : [entry, undefined];
    byName.delete(plugin.pluginName);
    byName.set(plugin.pluginName, [plugin, config]);
  }
  return byName.values();
}
