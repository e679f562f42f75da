/**
 * The add-in's page. Excel loads it, unseen, whenever a workbook uses a cell function, so it starts with little: the pane
 * comes in a piece of its own when it is first seen. Opened anywhere else, the page says what to do.
 */
import "./excel-page.css";
import { button, element } from "../../views/parts/element.js";
import { type Notice, excelWords as words } from "../../words/excel-words.js";
import { ribbonCommands } from "./ribbon-commands.js";
import { type PaneVisibility, paneVisibility } from "./visibility.js";

/** After this a user is told that the pane is still coming. */
const LONG_WAIT_MS = 10_000;

const root = document.getElementById("pane");
if (!root) throw new Error("the page has no place for the pane");
const place: HTMLElement = root;

start().catch((error: unknown) => {
  explain(words.failed(error instanceof Error ? error.message : String(error)));
  throw error;
});

async function start(): Promise<void> {
  if (!("Downfeed" in globalThis)) return explain(words.noFunctions);
  if (typeof Office === "undefined") return explain(words.noOffice);
  place.replaceChildren(element("p", { class: "excel-notice" }, words.starting));
  const giveToCommands = ribbonCommands((error) => warn(String(error)));
  const waiting = setTimeout(() => explain(words.waiting), LONG_WAIT_MS);
  const ready = await Office.onReady();
  clearTimeout(waiting);
  if (ready.host !== Office.HostType.Excel) return explain(words.noExcel);
  const visibility = paneVisibility(ready, warn);
  followTheme(visibility);
  await visibility.firstShown;
  const { startPane } = await import("./excel-pane.js");
  const settings = { namespace: namespaceOf(location.search), warn };
  giveToCommands(startPane(place, settings, visibility));
}

/** The manifest gives the page's address the namespace that it gives the functions. */
function namespaceOf(search: string): string {
  const given = new URLSearchParams(search).get("namespace") ?? "";
  return /^[A-Z][A-Z0-9]*$/.test(given) ? given : "FEED";
}

/** A shared runtime keeps this page when the pane is closed: only loading it anew begins again. */
function explain({ heading, steps }: Notice): void {
  place.replaceChildren(
    element(
      "div",
      { class: "excel-notice", role: "alert" },
      element("h1", {}, heading),
      ...[...steps, words.reloadAll].map((step) => element("p", {}, step)),
      button(words.reload, () => location.reload(), { class: "excel-button" }),
      element(
        "p",
        {},
        // In a window of its own: in this one it would take the cell functions away with the page.
        element("a", { href: "index.html", target: "_blank", rel: "noopener" }, words.workbench),
      ),
    ),
  );
}

/** What went wrong behind the scenes; it stays until the next one. */
function warn(message: string): void {
  document.querySelector(".excel-warning")?.remove();
  place.before(element("p", { class: "excel-notice excel-warning", role: "status" }, message));
}

/** Excel does not tell when its theme changes, so it is read anew whenever the user comes to the pane. */
function followTheme({ onShown }: PaneVisibility): void {
  readTheme();
  onShown(readTheme);
  addEventListener("focus", readTheme);
}

/** Excel on the web tells of no theme and is light, whatever the system is. */
function readTheme(): void {
  const ground = Office.context.officeTheme?.bodyBackgroundColor ?? "";
  document.documentElement.dataset["theme"] = isDarkColour(ground) ? "dark" : "light";
}

/** Whether `#rrggbb` is dark; weights of the three colours as in ITU-R BT.601. */
function isDarkColour(colour: string): boolean {
  const [, red, green, blue] = /^#([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(colour) ?? [];
  if (!red || !green || !blue) return false;
  const [r = 0, g = 0, b = 0] = [red, green, blue].map((part) => Number.parseInt(part, 16));
  return 0.299 * r + 0.587 * g + 0.114 * b < 128;
}
