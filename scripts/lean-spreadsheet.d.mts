import type { Plugin } from "esbuild";

export const leanSpreadsheet: Plugin;
