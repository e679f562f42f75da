/** The ribbon's buttons and the keys of shortcuts.json: each shows the pane with one of its views. */
import type { PaneControl, PaneView } from "../../pane.js";

/** By the action's name in manifest.xml and shortcuts.json, which is the view's own on its tab. */
const VIEWS: Readonly<Record<string, PaneView>> = {
  Feed: "feed",
  Warnings: "warnings",
  Working: "working",
};

type Pane = Pick<PaneControl, "choose">;

/**
 * To be called before Excel is asked whether it is ready: from then on it sends the commands, also the one that started
 * this page. A command waits for its pane.
 * @returns what the pane is given to, once it is there.
 */
export function ribbonCommands(failed: (error: unknown) => void): (pane: Pane) => void {
  let give: (pane: Pane) => void = () => undefined;
  const given = new Promise<Pane>((resolve) => {
    give = resolve;
  });
  for (const [action, view] of Object.entries(VIEWS))
    Office.actions.associate(action, (event?: Partial<Office.AddinCommands.Event> | null) => {
      Office.addin
        .showAsTaskpane()
        // Excel keeps the button busy until it is told; for keys it waits for nothing.
        .finally(() => event?.completed?.())
        .then(async () => (await given).choose(view))
        .catch(failed);
    });
  return give;
}
