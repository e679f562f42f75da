/** What TypeScript does not refuse by itself. Layout is Prettier's; who may import whom is tests/house.test.ts. */
import eslint from "@eslint/js";
import { defineConfig } from "eslint/config";
import officeAddins from "eslint-plugin-office-addins";
import typescript from "typescript-eslint";

export default defineConfig(
  { ignores: ["dist/", ".cache/", "node_modules/"] },
  { linterOptions: { reportUnusedDisableDirectives: "error" } },
  eslint.configs.recommended,
  typescript.configs.recommended,
  {
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/no-unused-vars": "error",
      // "== null" stays, for null or undefined.
      eqeqeq: ["error", "smart"],
      // A variable that a callback reads before it is given cannot be const.
      "prefer-const": ["error", { ignoreReadBeforeAssign: true }],
    },
  },
  {
    files: ["**/*.mjs"],
    languageOptions: {
      globals: {
        Buffer: "readonly",
        URL: "readonly",
        clearTimeout: "readonly",
        console: "readonly",
        fetch: "readonly",
        process: "readonly",
        setTimeout: "readonly",
      },
    },
  },
  {
    // The plug-in's own set would also bring React's rules and a second Prettier.
    files: ["taskpane/hosts/excel/*.ts", "functions/registrations/**/*.ts"],
    plugins: { "office-addins": officeAddins },
    rules: {
      "office-addins/call-sync-after-load": "error",
      "office-addins/call-sync-before-read": "error",
      "office-addins/load-object-before-read": "error",
      "office-addins/no-context-sync-in-loop": "error",
      "office-addins/no-empty-load": "error",
      "office-addins/no-navigational-load": "error",
      "office-addins/no-office-initialize": "error",
      "office-addins/test-for-null-using-isNullObject": "error",
    },
  },
);
