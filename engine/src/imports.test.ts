import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, normalize, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { parseAst } from "vite";
import { describe, expect, it } from "vitest";
import { COMPUTED, ENGINE_LIBRARIES, faultsOf, type Import } from "./testing/imports.ts";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const WORKSPACES = ["engine", "app", "cli", "bench"];

/** A node of the syntax tree, as far as it matters here. */
interface Node {
  readonly type: string;
  readonly source?: { readonly type: string; readonly value?: unknown } | null;
  readonly importKind?: string;
  readonly exportKind?: string;
  readonly specifiers?: readonly { readonly importKind?: string; readonly exportKind?: string }[];
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as { type?: unknown }).type === "string";

/** Every node that names a module: import, export from, `import()`, `import("…").Type`. */
function naming(value: unknown): Node[] {
  if (Array.isArray(value)) return value.flatMap(naming);
  if (!isNode(value)) return [];
  return [...(value.source ? [value] : []), ...Object.values(value).flatMap(naming)];
}

function onlyTypes(node: Node): boolean {
  if (node.type === "TSImportType" || node.importKind === "type" || node.exportKind === "type") return true;
  const specifiers = node.specifiers ?? [];
  return specifiers.length > 0 && specifiers.every((one) => (one.importKind ?? one.exportKind) === "type");
}

/** What the text of one file imports. */
function importsIn(path: string, text: string): Import[] {
  const tree: unknown = parseAst(text, { lang: path.endsWith("x") ? "tsx" : "ts" });
  return naming((tree as { body: unknown }).body).map((node) => {
    const specifier = node.source?.value;
    if (typeof specifier !== "string") return { specifier: COMPUTED, typeOnly: false };
    const leadsTo = normalize(join(dirname(path), specifier.replace(/\?.*$/, "")));
    return { specifier, typeOnly: onlyTypes(node), ...(specifier.startsWith(".") ? { leadsTo } : {}) };
  });
}

function sourcesUnder(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory())
      return /^(?:node_modules|dist|test-results)$/.test(entry.name) ? [] : sourcesUnder(path);
    return /\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

/** A map from little: each row is a file, then what it imports. */
const planted = (...rows: readonly (readonly [string, ...string[]])[]) =>
  new Map(
    rows.map(([path, ...targets]) => [
      path,
      targets.map((target) => {
        const specifier = target.replace("type ", "");
        const inside = /\.tsx?$/.test(specifier);
        return { specifier, typeOnly: target.startsWith("type "), ...(inside ? { leadsTo: specifier } : {}) };
      }),
    ]),
  );

describe("the check of imports", () => {
  it.each([
    ["a stage that imports a later one", ["engine/src/measure/derive.ts", "engine/src/arrange/model.ts"]],
    ["a type of a later stage", ["engine/src/measure/derive.ts", "type engine/src/arrange/model.ts"]],
    ["geometry that knows the document", ["engine/src/plane/clip.ts", "engine/src/document/tables.ts"]],
    ["a writer that decides", ["engine/src/write/svg.ts", "engine/src/measure/model.ts"]],
    ["a stage that writes", ["engine/src/book/book.ts", "engine/src/write/svg.ts"]],
    ["the index that loads the PDF writer", ["engine/src/index.ts", "engine/src/write/pdf.ts"]],
    ["Node in the engine", ["engine/src/document/file.ts", "node:fs"]],
    ["a screen library in the engine", ["engine/src/sheet/type.ts", "react"]],
    ["the PDF library outside the writers", ["engine/src/sheet/type.ts", "pdfkit"]],
    ["test code in what ships", ["engine/src/measure/derive.ts", "engine/src/testing/rooms.ts"]],
    ["a door that reaches past the index", ["app/src/main.tsx", "engine/src/derive.ts"]],
    ["a door that names a file of the engine", ["cli/src/main.ts", "@cornerwise/engine/src/derive.ts"]],
    ["a door that leans on the other", ["cli/src/main.ts", "app/src/store.ts"]],
    ["an import that only a run would tell", ["app/src/main.tsx", COMPUTED]],
    ["the engine that leans on a door", ["engine/src/derive.ts", "cli/src/main.ts"]],
  ] as const)("finds %s", (_, row) => {
    expect(faultsOf(planted(row))).toHaveLength(1);
  });

  it("finds a ring of imports", () => {
    const ring = planted(
      ["engine/src/units/a.ts", "engine/src/units/b.ts"],
      ["engine/src/units/b.ts", "engine/src/units/c.ts"],
      ["engine/src/units/c.ts", "type engine/src/units/d.ts", "engine/src/units/a.ts"],
    );
    expect(faultsOf(ring)).toEqual([
      "a ring of imports: engine/src/units/a.ts → engine/src/units/b.ts → engine/src/units/c.ts → engine/src/units/a.ts",
    ]);
  });

  it("finds a file that imports itself", () => {
    expect(faultsOf(planted(["app/src/a.ts", "app/src/a.ts"]))).toHaveLength(1);
  });

  it("lets stand what may stand", () => {
    const fine = planted(
      ["engine/src/snags/snag.ts", "type engine/src/snags/catalogue.ts", "engine/src/plane/point.ts"],
      ["engine/src/snags/catalogue.ts", "type engine/src/snags/snag.ts"],
      ["engine/src/arrange/derive.ts", "engine/src/measure/model.ts", "engine/src/plane/clip.ts"],
      ["engine/src/derive.ts", "engine/src/arrange/derive.ts"],
      ["engine/src/write/pdf.ts", "pdfkit", "engine/src/sheet/vocabulary.ts"],
      ["engine/src/measure/derive.test.ts", "node:fs", "engine/src/arrange/derive.ts"],
      ["cli/src/main.ts", "@cornerwise/engine/pdf", "node:fs"],
    );
    expect(faultsOf(fine)).toEqual([]);
  });

  it("reads every way of naming a module", () => {
    const text = `import a from "./a.ts"; import type { B } from "./b.ts"; import "./c.ts"; export * from "./d.ts";
      export { e } from "./e.ts"; export type { F } from "./f.ts"; const g = () => import("./g.ts");
      type H = import("./h.ts").H; const l = (path: string) => import(path); import { type I } from "./i.ts"; export const k = <p>{a}</p>;`;
    const found = importsIn("app/src/x.tsx", text);
    expect(found.map((one) => [one.leadsTo ?? one.specifier, one.typeOnly])).toEqual([
      ["app/src/a.ts", false],
      ["app/src/b.ts", true],
      ["app/src/c.ts", false],
      ["app/src/d.ts", false],
      ["app/src/e.ts", false],
      ["app/src/f.ts", true],
      ["app/src/g.ts", false],
      ["app/src/h.ts", true],
      [COMPUTED, false],
      ["app/src/i.ts", true],
    ]);
  });
});

describe("the imports of the project", () => {
  const paths = WORKSPACES.flatMap((workspace) => sourcesUnder(join(ROOT, workspace))).map((path) =>
    relative(ROOT, path).replaceAll("\\", "/"),
  );
  const imports = new Map(
    paths.map((path) => [path, importsIn(path, readFileSync(join(ROOT, path), "utf8"))]),
  );

  it("are read from every workspace", () => {
    for (const workspace of WORKSPACES)
      expect(paths.filter((path) => path.startsWith(`${workspace}/`)).length, workspace).toBeGreaterThan(0);
    expect([...imports.values()].flat().length).toBeGreaterThan(50);
  });

  it("point one way, without a ring", () => {
    expect(faultsOf(imports)).toEqual([]);
  });

  it("lead to every library the engine declares, and each has its reason", () => {
    const declared = JSON.parse(readFileSync(join(ROOT, "engine/package.json"), "utf8")) as {
      dependencies: Record<string, string>;
    };
    expect(Object.keys(declared.dependencies).toSorted()).toEqual([...ENGINE_LIBRARIES.keys()].toSorted());
  });
});
