/** What runs in the browser page of the snapshot test: workbooks opened in the workbench and taken out of it again. */
import {
  openWorkbench,
  type OpeningContent,
  type VendorAddresses,
} from "../../../taskpane/hosts/workbench/snapshots/opening.js";
import type { SnapshotTaken } from "../../../taskpane/hosts/workbench/snapshots/to-snapshot.js";

declare global {
  /** Also what it was saved as. */
  var throughWorkbench: (
    content: OpeningContent,
    addresses: VendorAddresses,
  ) => Promise<SnapshotTaken & { readonly saved: string }>;
}

globalThis.throughWorkbench = async (content, addresses) => {
  const container = document.getElementById("grid");
  if (!container) throw new Error("the page has no grid");
  const opened = await openWorkbench(container, content, addresses);
  const taken = { ...(await opened.takeSnapshot()), saved: opened.save() };
  // As the page does it before another workbook takes its place.
  await opened.host.atRest();
  opened.host.dispose();
  container.replaceChildren();
  return taken;
};
