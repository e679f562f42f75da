/** What the page and the thread that reads and writes files say to each other. */
import type { LeftOut } from "./left-out.js";
import type { WorkbookSnapshot } from "./workbook-snapshot.js";
import type { OpenedFile } from "./read/xlsx-reader.js";

export type ToFiles =
  | { readonly kind: "read"; readonly bytes: Uint8Array }
  | { readonly kind: "write"; readonly snapshot: WorkbookSnapshot };

export type FromFiles =
  | { readonly kind: "opened"; readonly file: OpenedFile }
  | {
      readonly kind: "written";
      readonly bytes: Uint8Array;
      readonly leftOut: readonly LeftOut[];
    }
  /** In a sentence for the user. */
  | { readonly kind: "refused"; readonly message: string }
  | { readonly kind: "fault"; readonly message: string };
