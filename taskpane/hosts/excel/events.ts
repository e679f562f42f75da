/** Excel's events as the port gives them: each listener with its own stop, changes told once when they are over. */
import { inExcel } from "./commands.js";

/** What cannot be thrown at anyone: a listener that could not be set up or taken away. */
export type Warn = (message: string) => void;

type Subscription = OfficeExtension.EventHandlerResult<unknown>;

/** Sheets by Excel's own ids, which is all that an event tells of the sheet that it is about. */
export interface SheetIds {
  /** To be read with whatever the context asks for next; gives what takes them over after that. */
  ask(context: Excel.RequestContext): () => void;
  /** As it was called when they were read last. */
  nameOf(id: string): string | undefined;
}

export function sheetIds(): SheetIds {
  let names: ReadonlyMap<string, string> = new Map();
  return {
    ask(context) {
      const { worksheets } = context.workbook;
      worksheets.load("items/id,items/name");
      return () => {
        names = new Map(worksheets.items.map(({ id, name }) => [id, name]));
      };
    },
    nameOf: (id) => names.get(id),
  };
}

/** One edit comes as several events, with the recalculation behind it. */
const QUIET_MS = 60;

/** Calls the listener once values may read differently and the sheets have been calculated, with those where they may. */
export function listenToChanges(
  listener: (sheets?: ReadonlySet<string>) => void,
  ids: Pick<SheetIds, "nameOf">,
  warn: Warn,
): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Undefined for a sheet that is not known. */
  let changed = new Set<string | undefined>();
  function happened(name: string | undefined): void {
    changed.add(name);
    clearTimeout(timer);
    timer = setTimeout(() => {
      const told = changed;
      changed = new Set();
      if (isKnown(told)) listener(told);
      else listener();
    }, QUIET_MS);
  }
  const onSheet = async ({ worksheetId }: { readonly worksheetId: string }) =>
    happened(ids.nameOf(worksheetId));
  const onSheets = async () => happened(undefined);
  const stop = subscribe(
    ({ worksheets }) => [
      worksheets.onChanged.add(onSheet),
      worksheets.onCalculated.add(onSheet),
      worksheets.onAdded.add(onSheets),
      worksheets.onDeleted.add(onSheets),
    ],
    warn,
  );
  return () => {
    clearTimeout(timer);
    stop();
  };
}

function isKnown(names: ReadonlySet<string | undefined>): names is ReadonlySet<string> {
  return !names.has(undefined);
}

/** Calls the listener when another cell or another sheet is chosen. */
export function listenToSelection(listener: () => void, warn: Warn): () => void {
  let isStopped = false;
  const happened = async () => {
    if (!isStopped) listener();
  };
  const stop = subscribe(
    ({ worksheets }) => [
      worksheets.onSelectionChanged.add(happened),
      worksheets.onActivated.add(happened),
    ],
    warn,
  );
  return () => {
    isStopped = true;
    stop();
  };
}

/** Excel answers later, so a stop may come before the start is through. */
function subscribe(
  add: (workbook: Excel.Workbook) => readonly Subscription[],
  warn: Warn,
): () => void {
  const started = inExcel(async (context) => {
    const subscriptions = add(context.workbook);
    await context.sync();
    return subscriptions;
  });
  started.catch((error: unknown) =>
    warn(`changes in the sheets are not noticed: ${messageOf(error)}`),
  );
  return () => {
    started.then(stopAll, () => undefined).catch((error: unknown) => warn(messageOf(error)));
  };
}

async function stopAll(subscriptions: readonly Subscription[]): Promise<void> {
  const [first] = subscriptions;
  if (!first) return;
  await Excel.run(first.context, async (context) => {
    for (const subscription of subscriptions) subscription.remove();
    await context.sync();
  });
}

export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
