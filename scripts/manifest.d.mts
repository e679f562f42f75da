export interface ManifestPlace {
  /** Where the files are served; may end in a folder. */
  readonly origin: string;
  readonly development: boolean;
}

export declare const DEVELOPMENT_ORIGIN: string;
export declare const ICON_SIZES: readonly number[];
export declare function manifestPlace(
  environment: Readonly<Record<string, string | undefined>>,
): ManifestPlace;
export declare function namespaceOf(place: Pick<ManifestPlace, "development">): string;
export declare function manifestText(place: ManifestPlace): Promise<string>;
export declare function writeManifest(
  options: ManifestPlace & { readonly outFile: string },
): Promise<void>;
export declare function copyIcons(outDir: string): Promise<void>;
