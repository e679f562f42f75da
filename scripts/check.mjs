/**
 * Runs every check that is not a test of behaviour, in turn, and names those that failed.
 * A failure does not stop the rest, so that one run shows all there is to mend.
 */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));

/** @type {readonly (readonly [string, string])[]} What is checked, and the command that checks it. */
const CHECKS = [
  ["types", "npx --no-install tsc -p ."],
  ["types of src without a browser", "npx --no-install tsc -p src"],
  ["lint", "npx --no-install eslint --max-warnings 0 ."],
  ["layout", "npx --no-install prettier --check ."],
  ["imports", "npx --no-install vitest run tests/house.test.ts"],
  ["generated files", "node scripts/generate.mjs --check"],
];

const failed = CHECKS.filter(([name, command]) => !passes(name, command));

if (failed.length > 0) {
  console.error("\nFailed:");
  for (const [name, command] of failed) console.error(`  ${name}: ${command}`);
  process.exitCode = 1;
} else {
  console.log(`\nAll ${CHECKS.length} checks passed.`);
}

/** @param {string} name @param {string} command */
function passes(name, command) {
  console.log(`\n${name}: ${command}`);
  // Through a shell, because npx is a script of its own kind on Windows.
  const { status, error } = spawnSync(command, {
    cwd: PROJECT,
    stdio: "inherit",
    shell: true,
  });
  if (error) console.error(error.message);
  return status === 0;
}
