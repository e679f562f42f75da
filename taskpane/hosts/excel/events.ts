/** Excel's events as the port gives them: each listener with its own stop, changes told once when they are over. */
import { inExcel } from "./commands.js";

/** What cannot be thrown at anyone: a listener that could not be set up or taken away. */
export type Warn = (message: string) => void;

type Subscription = OfficeExtension.EventHandlerResult<unknown>;

/** One edit comes as several events, with the recalculation behind it. */
const QUIET_MS = 60;

/** Calls the listener once values may read differently, and the sheets have been calculated. */
export function listenToChanges(listener: () => void, warn: Warn): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const happened = async () => {
    clearTimeout(timer);
    timer = setTimeout(listener, QUIET_MS);
  };
  const stop = subscribe(
    ({ worksheets }) => [
      worksheets.onChanged.add(happened),
      worksheets.onCalculated.add(happened),
      worksheets.onAdded.add(happened),
      worksheets.onDeleted.add(happened),
    ],
    warn,
  );
  return () => {
    clearTimeout(timer);
    stop();
  };
}

/** Calls the listener when another cell or another sheet is chosen. */
export function listenToSelection(listener: () => Promise<void>, warn: Warn): () => void {
  let isStopped = false;
  const happened = async () => {
    if (isStopped) return;
    await listener().catch((error: unknown) => warn(messageOf(error)));
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
