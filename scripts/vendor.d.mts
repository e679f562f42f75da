/** Folder of the bundled spreadsheet. */
export const VENDOR_CACHE: string;

/** Names of the files in it, bundled anew when what goes into them has changed. */
export function vendorFiles(): Promise<{
  readonly script: string;
  readonly style: string;
  readonly metafile: string;
}>;
