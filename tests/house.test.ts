import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import typescript from "typescript";
import { describe, expect, it } from "vitest";

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "..");

function typescriptFiles(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" })
    .map((path) => join(folder, path))
    .filter((path) => /\.[mc]?tsx?$/.test(path));
}

function codeOf(path: string): string {
  // Without comments, so that a comment may say what the code may not.
  return readFileSync(join(ROOT, path), "utf8").replace(
    /\/\*[\s\S]*?\*\/|(^|[^:"'`])\/\/.*$/gm,
    "$1",
  );
}

/** What a file imports: a path in the project, or a package's name. */
function importsOf(path: string): string[] {
  const { importedFiles } = typescript.preProcessFile(readFileSync(join(ROOT, path), "utf8"));
  return importedFiles.map(({ fileName: wanted }) =>
    wanted.startsWith(".") ? relative(ROOT, resolve(ROOT, dirname(path), wanted)) : wanted,
  );
}

const ROOMS: Readonly<Record<string, readonly string[]>> = {
  src: ["src"],
  functions: ["src", "functions"],
  taskpane: ["src", "functions", "taskpane"],
  "taskpane/budgets": ["src", "functions", "taskpane/budgets"],
};

/** The floors of taskpane/, lowest first: a file imports from its own floor and below. */
const FLOORS = [
  ["words", "budgets", "hosts"],
  ["formula-reading"],
  ["workbook"],
  ["tradeoffs"],
  ["pictures"],
  ["report"],
  ["views"],
  ["."],
  ["pages"],
] as const;

/** Rooms that read well as one list, however long. */
const FLAT = ["src/network", "src/conductors", "src/safety", "functions/families"];
const FILES_IN_A_ROOM = 14;

describe("the house", () => {
  for (const [room, reaches] of Object.entries(ROOMS)) {
    it(`${room}/ imports nothing of the project but ${reaches.join(", ")}`, () => {
      const strays = typescriptFiles(room).flatMap((path) =>
        importsOf(path)
          .filter((wanted) => /^(src|functions|taskpane|tests|scripts|\.\.)/.test(wanted))
          .filter((wanted) => !reaches.some((reach) => wanted.startsWith(`${reach}/`)))
          .map((wanted) => `${path} imports ${wanted}`),
      );
      expect(strays).toEqual([]);
    });
  }

  it("no file imports itself, not through any others and not for a type alone", () => {
    const files = ["src", "functions", "taskpane"].flatMap(typescriptFiles);
    const known = new Set(files);
    const imports = new Map(
      files.map((path) => [
        path,
        importsOf(path)
          .flatMap((wanted) => [".ts", ".tsx"].map((end) => wanted.replace(/\.js$/, end)))
          .filter((wanted) => known.has(wanted)),
      ]),
    );
    const done = new Set<string>();
    const circles: string[] = [];
    const follow = (path: string, way: readonly string[]) => {
      const at = way.indexOf(path);
      if (at >= 0) circles.push([...way.slice(at), path].join(" → "));
      if (at >= 0 || done.has(path)) return;
      for (const next of imports.get(path) ?? []) follow(next, [...way, path]);
      done.add(path);
    };
    for (const path of files) follow(path, []);
    expect(circles).toEqual([]);
  });

  it("in taskpane/ no file imports from a floor above its own", () => {
    const floorOf = (path: string) => {
      const [, room, more] = path.split("/");
      const name = more === undefined ? "." : (room as string);
      const floor = FLOORS.findIndex((rooms) => (rooms as readonly string[]).includes(name));
      expect(floor, `${path} stands on no floor`).toBeGreaterThanOrEqual(0);
      return floor;
    };
    const strays = typescriptFiles("taskpane").flatMap((path) =>
      importsOf(path)
        .filter((wanted) => wanted.startsWith("taskpane/") && floorOf(wanted) > floorOf(path))
        .map((wanted) => `${path} imports ${wanted}`),
    );
    expect(strays).toEqual([]);
  });

  it(`no room has more than ${FILES_IN_A_ROOM} files, but for those that read well as one list`, () => {
    const rooms = new Map<string, number>();
    for (const path of ["src", "functions", "taskpane"].flatMap(typescriptFiles))
      rooms.set(dirname(path), (rooms.get(dirname(path)) ?? 0) + 1);
    const full = [...rooms].filter(
      ([room, files]) => files > FILES_IN_A_ROOM && !FLAT.includes(room),
    );
    expect(full).toEqual([]);
  });

  it("src/ imports no package, and functions/ none but the version in package.json", () => {
    const packages = (room: string) =>
      typescriptFiles(room).flatMap((path) =>
        importsOf(path)
          .filter((wanted) => !/^(src|functions)\//.test(wanted) && wanted !== "package.json")
          .map((wanted) => `${path} imports ${wanted}`),
      );
    expect(packages("src")).toEqual([]);
    expect(packages("functions")).toEqual([]);
  });

  it("src/ knows no host, page, clock, chance or locale", () => {
    const known =
      /\b(window|document|navigator|fetch|console|Date|performance|process|Intl|Office|Excel)\b|Math\.random|toLocale/;
    const strays = typescriptFiles("src").flatMap((path) => {
      const words = codeOf(path).replace(/"(?:[^"\\]|\\.)*"|`(?:[^`\\]|\\.)*`/g, '""');
      const match = known.exec(words);
      return match ? [`${path} says ${match[0]}`] : [];
    });
    expect(strays).toEqual([]);
  });

  it("only the Excel adapter, page and registration say Excel or Office, only the workbench says Univer", () => {
    const strays = [...typescriptFiles("functions"), ...typescriptFiles("taskpane")].flatMap(
      (path) => {
        const words = codeOf(path).replace(/"(?:[^"\\]|\\.)*"|`(?:[^`\\]|\\.)*`/g, '""');
        const isExcel = /\/excel\/|(^|\/)(registrations\/excel|main)\.ts$/.test(path);
        const isWorkbench = /taskpane\/hosts\/(workbench|vendor)/.test(path);
        const found: string[] = [];
        if (!isExcel && /\b(Office|Excel|CustomFunctions)\./.test(words))
          found.push(`${path} speaks to Excel`);
        if (!isWorkbench && importsOf(path).some((wanted) => wanted.startsWith("@univerjs/")))
          found.push(`${path} imports Univer`);
        return found;
      },
    );
    expect(strays).toEqual([]);
  });

  it("only the file adapter packs and unpacks files, and it knows no page, host or spreadsheet", () => {
    const strays = typescriptFiles("taskpane").flatMap((path) => {
      const isFiles = path.startsWith(join("taskpane", "hosts", "files"));
      return importsOf(path)
        .filter((wanted) =>
          isFiles
            ? !/^(fflate|src\/plans\/|taskpane\/hosts\/(files\/|host\.js))/.test(wanted)
            : wanted === "fflate",
        )
        .map((wanted) => `${path} imports ${wanted}`);
    });
    expect(strays).toEqual([]);
  });

  it("the .xlsx library that files are held against is in no page", () => {
    const strays = Object.keys(ROOMS)
      .flatMap(typescriptFiles)
      .filter((path) => importsOf(path).some((each) => /exceljs/.test(each)));
    expect(strays).toEqual([]);
  });

  it("src/ compiles without the types of any host", () => {
    const tsc = join(ROOT, "node_modules", "typescript", "bin", "tsc");
    execFileSync(process.execPath, [tsc, "-p", join(ROOT, "src")], {
      encoding: "utf8",
    });
  }, 60_000);
});
