export interface ManifestPlace {
  /** Where the files are served; may end in a folder. */
  readonly origin: string;
  readonly development: boolean;
  /** Number of the build, of one under development. */
  readonly build?: number;
}

export declare const DEVELOPMENT_ORIGIN: string;
export declare const DEVELOPMENT_ID: string;
export declare const ICON_SIZES: readonly number[];
export declare function namespaceOf(place: Pick<ManifestPlace, "development">): string;
/** Without an origin that of development. */
export declare function manifestPlace(origin?: string): ManifestPlace;
export declare function manifestText(place: ManifestPlace): Promise<string>;
/** `now` in ms since 1970. */
export declare function nextBuild(last: number, now: number): number;
export declare function writeManifest(
  options: ManifestPlace & { readonly outFile: string },
): Promise<void>;
export declare function copyIcons(outDir: string): Promise<void>;
