/** Licences of everything of others' that the built files hold, read from the packages themselves. */
import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = fileURLToPath(new URL("..", import.meta.url));

const ACCEPTED = ["0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT"];

const LINE = "-".repeat(78);

/**
 * @param {Iterable<string>} modules Paths of files that were bundled.
 * @returns {string}
 * @throws {Error} for a package without a licence that lets it be passed on.
 */
export function noticesText(modules) {
  const folders = [...new Set([...modules].flatMap(packageFolder))].sort();
  // Many packages share one text to the letter: it is printed once, below all of them.
  const byText = new Map();
  for (const folder of folders) {
    const text = licenceText(folder);
    byText.set(text, [...(byText.get(text) ?? []), heading(folder, text)]);
  }
  const parts = [...byText].map(([text, headings]) => [LINE, ...headings, "", text, ""].join("\n"));
  return [
    "The built files of Downfeed hold the following packages of others.",
    "Parts that a spreadsheet page never uses are left out of some of them, and scripts/lean-spreadsheet.mjs changes",
    "how those of @univerjs set their fields and read texts.",
    "",
    ...parts,
  ].join("\n");
}

/** `node_modules/@scope/name`, with the packages that it lies in; none for a file of the project. */
function packageFolder(path) {
  const plain = path.split(sep).join("/");
  const found = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(plain)?.[0];
  return found ? [found.slice(found.indexOf("node_modules/"))] : [];
}

function heading(folder, text) {
  const { name, version, license, author, homepage } = JSON.parse(
    readFileSync(join(PROJECT, folder, "package.json"), "utf8"),
  );
  const licence = license ?? licenceOf(text);
  if (!ACCEPTED.includes(licence))
    throw new Error(`${name} has the licence ${licence}: may it be passed on?`);
  const by = typeof author === "string" ? author : author?.name;
  return [`${name} ${version}`, licence, by, homepage].filter(Boolean).join(" · ");
}

/** For a package that only brings the text. */
function licenceOf(text) {
  return /^\s*Apache License\s+Version 2\.0/.test(text) ? "Apache-2.0" : undefined;
}

function licenceText(folder) {
  return readdirSync(join(PROJECT, folder))
    .filter((file) => /^(licen[cs]e|notice|copying)/i.test(file))
    .sort()
    .map((file) => readFileSync(join(PROJECT, folder, file), "utf8").trim())
    .join("\n\n");
}
