export interface Sideloading {
  readonly manifest: string;
  /** The file of npm that runs this, as npm says it. */
  readonly npm?: string;
  /** A package with one command, as npx names it. */
  readonly tool?: string;
  readonly platform?: NodeJS.Platform;
  readonly home?: string;
}

export declare function startInExcel(options: Sideloading): Promise<void>;
export declare function stopInExcel(options: Sideloading): Promise<void>;
export declare function inExcelUntilInterrupted(
  options: Sideloading,
  told: { readonly failed: (error: Error) => void; readonly close: () => void },
): Promise<void>;
