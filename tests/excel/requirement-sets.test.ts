/** Every member of Excel that the adapter uses, held against the requirement sets that Microsoft's types name. */
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import ts from "typescript";
import { describe, it } from "vitest";

/** What the manifest asks for. */
const BASE = [1, 12] as const;

/** Used behind a question for the set: what each is, where, and the set. */
const GUARDED = [
  "commands.ts: mergeUndoGroup 1.20",
  "notes.ts: add 1.18",
  "notes.ts: height 1.18",
  "notes.ts: notes 1.18",
  "notes.ts: width 1.18",
];

interface Used {
  readonly file: string;
  readonly member: string;
  readonly set: string;
}

const FOLDER = "taskpane/hosts/excel";
const files = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".ts"))
  .map((name) => `${FOLDER}/${name}`);

function usedMembers(): readonly Used[] {
  const { config } = ts.readConfigFile("tsconfig.json", (path) => ts.sys.readFile(path)) as {
    config: { compilerOptions: unknown };
  };
  const { options } = ts.convertCompilerOptionsFromJson(config.compilerOptions, ".");
  const program = ts.createProgram(files, options);
  const checker = program.getTypeChecker();
  return files.flatMap((file) => {
    const source = program.getSourceFile(file);
    assert.ok(source, file);
    const used: Used[] = [];
    const note = (symbol: ts.Symbol | undefined, member: string) => {
      for (const declaration of symbol?.declarations ?? []) {
        if (!declaration.getSourceFile().fileName.includes("office-js")) continue;
        const set = /\[Api set: ExcelApi (\S+)\]/.exec(declaration.getFullText())?.[1];
        if (set) used.push({ file: file.slice(FOLDER.length + 1), member, set });
      }
    };
    const visit = (node: ts.Node): void => {
      if (ts.isPropertyAccessExpression(node))
        note(checker.getSymbolAtLocation(node.name), node.name.text);
      if (ts.isBindingElement(node) && ts.isObjectBindingPattern(node.parent)) noteBound(node);
      if (ts.isObjectLiteralExpression(node)) noteLiteral(node);
      if (ts.isCallExpression(node)) noteLoaded(node);
      ts.forEachChild(node, visit);
    };
    const noteBound = (node: ts.BindingElement) => {
      const name = (node.propertyName ?? node.name).getText();
      const type = checker.getTypeAtLocation(node.parent);
      note(type.getProperty(name), name);
    };
    const noteLiteral = (node: ts.ObjectLiteralExpression) => {
      const type = checker.getContextualType(node);
      for (const property of node.properties)
        if (property.name)
          note(type?.getProperty(property.name.getText()), property.name.getText());
        else if (ts.isSpreadAssignment(property)) {
          const spread = checker.getTypeAtLocation(property.expression);
          for (const { name } of spread.getProperties()) note(type?.getProperty(name), name);
        }
    };
    /** `load("items/name,items/type")`: each word is a member too. */
    const noteLoaded = ({ expression, arguments: args }: ts.CallExpression) => {
      const [words] = args;
      if (!ts.isPropertyAccessExpression(expression) || expression.name.text !== "load" || !words)
        return;
      assert.ok(ts.isStringLiteral(words), `${file}: load takes plain words`);
      const owner = checker.getTypeAtLocation(expression.expression);
      for (const path of words.text.split(","))
        path.split("/").reduce(
          (types, word) => {
            const symbols = types.flatMap((type) => type.getProperty(word) ?? []);
            assert.ok(symbols.length > 0, `${file}: nothing has a ${word}`);
            for (const symbol of symbols) note(symbol, word);
            return symbols.map((symbol) => {
              const type = checker.getTypeOfSymbol(symbol);
              return checker.getIndexTypeOfType(type, ts.IndexKind.Number) ?? type;
            });
          },
          owner.isUnion() ? owner.types : [owner],
        );
    };
    visit(source);
    return used;
  });
}

function isLater(set: string): boolean {
  const [major = 0, minor = 0] = set.split(".").map(Number);
  return major > BASE[0] || (major === BASE[0] && minor > BASE[1]);
}

describe("the members of Excel that the adapter uses", () => {
  const used = usedMembers();

  it("are found: calls, properties, options and loaded words", () => {
    const found = new Set(used.map(({ member }) => member));
    for (const member of [
      "getSpecialCellsOrNullObject",
      "columnWidth",
      "getSpillParentOrNullObject",
      "valueTypes",
      "names",
      "decimal",
    ])
      assert.ok(found.has(member), member);
  });

  it("are in the base set, but for those that are asked for first", () => {
    const later = used
      .filter(({ set }) => isLater(set))
      .map(({ file, member, set }) => `${file}: ${member} ${set}`);
    assert.deepEqual([...new Set(later)].sort(), GUARDED);
  });

  it("are in no preview", () => {
    assert.deepEqual(
      used.filter(({ set }) => !/^1\.\d+$/.test(set)),
      [],
    );
  });
}, 60_000);
