/**
 * The add-in's page. Excel loads it, unseen, whenever a workbook uses a cell function, so it starts with little: the pane
 * comes in a piece of its own. Opened anywhere else, the page says what to do.
 */
import "./excel-page.css";
import { element } from "../../views/parts/element.js";
import { ribbonCommands } from "./ribbon-commands.js";

const words = {
  starting: "Downfeed is starting …",
  failed: (why: string) =>
    `The pane could not be started: ${why}. Close the pane and open it again.`,
  noOffice: {
    heading: "Excel's library did not arrive",
    steps: [
      "This page needs office.js, which it loads from appsforoffice.microsoft.com. Check the connection, and whether a filter blocks that address; then close the pane and open it again.",
      "Cells keep the values that they have until then.",
    ],
  },
  noExcel: {
    heading: "This page is Downfeed's pane in Excel",
    steps: [
      "Opened by itself it has no workbook to work on.",
      "In Excel: choose Downfeed on the Home tab. If it is not there yet, on the web: Home, Add-ins, More Settings, Upload My Add-in, and choose the file manifest.xml.",
    ],
  },
  noFunctions: {
    heading: "The cell functions did not arrive",
    steps: [
      "The file functions.js beside this page could not be loaded. Close the pane and open it again; if that does not help, ask the person who installed Downfeed.",
    ],
  },
  workbench: "Open the workbench, which needs no Excel",
};

/** Longest that a page waits to be told where it is. */
const LONGEST_WAIT_MS = 10_000;

const root = document.getElementById("pane");
if (!root) throw new Error("the page has no place for the pane");
const place: HTMLElement = root;

start().catch((error: unknown) => {
  const why = error instanceof Error ? error.message : String(error);
  place.replaceChildren(element("p", { class: "excel-notice", role: "alert" }, words.failed(why)));
  throw error;
});

async function start(): Promise<void> {
  if (!("Downfeed" in globalThis)) return explain(words.noFunctions);
  if (typeof Office === "undefined") return explain(words.noOffice);
  place.replaceChildren(element("p", { class: "excel-notice" }, words.starting));
  const giveToCommands = ribbonCommands((error) => warn(String(error)));
  const host = await Promise.race([
    Office.onReady().then((ready) => ready.host),
    new Promise<undefined>((resolve) => {
      setTimeout(() => resolve(undefined), LONGEST_WAIT_MS);
    }),
  ]);
  if (host !== Office.HostType.Excel) return explain(words.noExcel);
  followTheme();
  const { startPane } = await import("./excel-pane.js");
  giveToCommands(startPane(place, { namespace: namespaceOf(location.search), warn }));
}

/** The manifest gives the page's address the namespace that it gives the functions. */
function namespaceOf(search: string): string {
  const given = new URLSearchParams(search).get("namespace") ?? "";
  return /^[A-Z][A-Z0-9]*$/.test(given) ? given : "FEED";
}

function explain({
  heading,
  steps,
}: {
  readonly heading: string;
  readonly steps: readonly string[];
}): void {
  place.replaceChildren(
    element(
      "div",
      { class: "excel-notice", role: "alert" },
      element("h1", {}, heading),
      ...steps.map((step) => element("p", {}, step)),
      element("p", {}, element("a", { href: "index.html" }, words.workbench)),
    ),
  );
}

/** What went wrong behind the scenes; it stays until the next one. */
function warn(message: string): void {
  document.querySelector(".excel-warning")?.remove();
  place.before(element("p", { class: "excel-notice excel-warning", role: "status" }, message));
}

/** Excel does not tell when its theme changes, so it is read anew each time the pane is shown. */
function followTheme(): void {
  readTheme();
  if (Office.context.requirements.isSetSupported("SharedRuntime", "1.1"))
    Office.addin.onVisibilityModeChanged(readTheme).catch((error: unknown) => warn(String(error)));
}

function readTheme(): void {
  const ground = Office.context.officeTheme?.bodyBackgroundColor;
  const isDark = ground === undefined ? undefined : isDarkColour(ground);
  if (isDark === undefined) delete document.documentElement.dataset["theme"];
  else document.documentElement.dataset["theme"] = isDark ? "dark" : "light";
}

/** Of `#rrggbb`; weights of the three colours as in ITU-R BT.601. */
function isDarkColour(colour: string): boolean | undefined {
  const [, red, green, blue] = /^#([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(colour) ?? [];
  if (!red || !green || !blue) return undefined;
  const [r = 0, g = 0, b = 0] = [red, green, blue].map((part) => Number.parseInt(part, 16));
  return 0.299 * r + 0.587 * g + 0.114 * b < 128;
}
