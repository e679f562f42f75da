import packageJson from "../package.json" with { type: "json" };

/** The version that a workbook was calculated with. */
export const ENGINE_VERSION: string = packageJson.version;
