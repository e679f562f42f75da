/** The functions of an earlier release, to be measured in the same run. */
import { execFileSync } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { loadTypeScript } from "../load-typescript.mjs";
import { answersOf } from "./measure.mjs";

const PROJECT = fileURLToPath(new URL("../..", import.meta.url));

export const RELEASE = "0.2";
const COMMIT = "8932e5c";

/** Its answers to calls; undefined, and said so, where the project's history is not there. */
export async function answersOfRelease() {
  const folder = await mkdtemp(join(tmpdir(), "downfeed-release-"));
  try {
    git("worktree", "add", "--detach", folder, COMMIT);
  } catch (error) {
    const { stderr = "" } = /** @type {{ stderr?: string }} */ (error);
    console.log(
      `${RELEASE} is not measured, because git does not find it here: ${stderr.trim()}\n`,
    );
    await rm(folder, { recursive: true, force: true });
    return undefined;
  }
  try {
    return answersOf(await loadTypeScript("functions/runner.ts", folder));
  } finally {
    git("worktree", "remove", "--force", folder);
  }
}

/** @param {string[]} args */
function git(...args) {
  execFileSync("git", args, { cwd: PROJECT, encoding: "utf8", stdio: "pipe" });
}
