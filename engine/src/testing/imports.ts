/**
 * The direction of imports, as data and as a pure check: given what every file imports, the arrows that must
 * not be. It knows nothing of disks or parsers, so it is tried with planted faults before it is believed.
 *
 *   units ─▶ plane, solve ─▶ document ─▶ change ─▶ snags, sheet ─▶ tape ─▶ measure ─▶ arrange … ─▶ derive ─▶ doors
 *
 * (An arrow points from what is imported to what imports it.) Source: the project's architecture page.
 */

/** One import: the specifier as written, and for a file of the project the path it leads to. */
export interface Import {
  readonly specifier: string;
  /** Path from the root of the project, for imports by path. */
  readonly leadsTo?: string;
  /** Only types are imported: nothing is left of it when the program runs. */
  readonly typeOnly: boolean;
}

/** Stands for a specifier that only a run would tell: `import(path)`. */
export const COMPUTED = "(computed)";

/** What every file imports, by path from the root of the project. */
export type ImportMap = ReadonlyMap<string, readonly Import[]>;

/** Folders of the engine, each with the folders it may import besides itself. */
const BASE = ["units"] as const;
const SAID = [...BASE, "plane", "solve", "document", "change"] as const;
const SPOKEN = [...SAID, "snags", "sheet", "tape"] as const;
const STAGES = [
  "measure",
  "arrange",
  "make",
  "model",
  "install",
  "pack",
  "strike",
  "propose",
  "book",
] as const;
const ALLOWED: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ["units", []],
  ["plane", BASE],
  ["solve", BASE],
  ["document", [...BASE, "plane", "solve"]],
  ["change", [...BASE, "plane", "solve", "document"]],
  ["snags", [...BASE, "document"]],
  ["sheet", [...BASE, "document", "snags"]],
  ["tape", [...SAID, "snags"]],
  ...STAGES.map((stage, at) => [stage, [...SPOKEN, ...STAGES.slice(0, at)]] as const),
  ["write", [...BASE, "sheet"]],
]);

/** Files everything may see: they hold figures or types and import nothing that runs. */
const SEEN_BY_ALL = new Set(["engine/src/tolerances.ts", "engine/src/plane/point.ts"]);

/** Libraries of the engine: pure and synchronous, each with its reason. */
export const ENGINE_LIBRARIES: ReadonlyMap<string, { readonly reason: string; readonly only?: string }> =
  new Map([
    ["zod", { reason: "one schema gives the types, the reader and the JSON Schema", only: "document" }],
    ["ml-matrix", { reason: "decompositions for least squares, tried and published", only: "solve" }],
    ["clipper2-ts", { reason: "exact clipping and offset on integer coordinates", only: "plane" }],
    ["temporal-polyfill", { reason: "civil times in a named zone, by the published rules", only: "install" }],
    ["@tarikjabiri/dxf", { reason: "DXF text, in mm units, read back without faults", only: "write" }],
    ["papaparse", { reason: "CSV quoting by RFC 4180", only: "write" }],
    ["pdfkit", { reason: "PDF bytes with subset fonts, the same in Node and in a browser", only: "write" }],
  ]);

/** Every arrow that must not be, each a sentence that names both files. Empty: all is well. */
export function faultsOf(imports: ImportMap): string[] {
  const files = [...imports].filter(([path]) => !isForTests(path));
  const arrows = files.flatMap(([path, list]) => list.flatMap((one) => faultOf(path, one) ?? []));
  return [...arrows, ...cyclesOf(new Map(files))];
}

function isForTests(path: string): boolean {
  return /\.(?:test|prove)\.tsx?$/.test(path) || path.includes("/testing/") || path.startsWith("app/tests/");
}

function faultOf(path: string, one: Import): string | undefined {
  const workspace = path.split("/")[0];
  // The benchmarks' door runs the file it is asked for; nobody else may hide what they import.
  if (one.specifier === COMPUTED)
    return workspace === "bench" ? undefined : `${path} imports what only a run would tell`;
  if (one.leadsTo === undefined) return packageFault(path, workspace, one.specifier);
  const target = one.leadsTo;
  if (isForTests(target) && workspace !== "bench")
    return `${path} imports ${target}, which is only for tests`;
  const other = target.split("/")[0];
  if (workspace !== other) return doorFault(path, workspace, target);
  return workspace === "engine" ? engineFault(path, target) : undefined;
}

/** Bench looks inside the engine to time single steps, and runs the command as its tests do; doors use its index only. */
function doorFault(path: string, workspace: string | undefined, target: string): string | undefined {
  if (workspace === "bench" && /^(?:engine\/src|cases|cli\/src\/testing)\//.test(target)) return undefined;
  if (/\.(?:txt|json)$/.test(target) && target.startsWith("cases/")) return undefined;
  return `${path} reaches into ${target}: workspaces meet at "@cornerwise/engine"`;
}

function packageFault(path: string, workspace: string | undefined, specifier: string): string | undefined {
  if (workspace !== "engine") {
    const inside = specifier.startsWith("@cornerwise/");
    const door = ["@cornerwise/engine", "@cornerwise/engine/pdf", "@cornerwise/engine/files"].includes(
      specifier,
    );
    return inside && !door
      ? `${path} imports ${specifier}: only the engine's three doors are open`
      : undefined;
  }
  const name = specifier
    .split("/")
    .slice(0, specifier.startsWith("@") ? 2 : 1)
    .join("/");
  const library = ENGINE_LIBRARIES.get(name);
  if (library === undefined) return `${path} imports ${specifier}, which is not on the engine's list`;
  const folder = folderOf(path);
  if (library.only !== undefined && folder !== library.only)
    return `${path} imports ${name}, which only ${library.only} may`;
  return undefined;
}

/** "measure" for a file in that folder of the engine; "" for a file that stands above the folders. */
function folderOf(path: string): string {
  const parts = path.split("/");
  return parts.length > 3 ? (parts[2] ?? "") : "";
}

function engineFault(path: string, target: string): string | undefined {
  if (SEEN_BY_ALL.has(target)) return undefined;
  const from = folderOf(path);
  const to = folderOf(target);
  if (path === "engine/src/index.ts")
    return /^engine\/src\/write\/(?:pdf|files|dxf|csv|calendar)\.ts$/.test(target)
      ? `${path} imports ${target}, which must load late`
      : undefined;
  if (path === "engine/src/derive.ts")
    return to === "write" || to === "" ? `${path} imports ${target}: deriving writes nothing` : undefined;
  // What tells two derivations apart stands after the deriving itself, and writes nothing either.
  if (path === "engine/src/ripple.ts")
    return to === "write" || (to === "" && target !== "engine/src/derive.ts")
      ? `${path} imports ${target}: telling writes nothing`
      : undefined;
  if (from === to && from !== "") return undefined;
  if (ALLOWED.get(from)?.includes(to)) return undefined;
  return `${path} imports ${target}: an arrow from ${from || "the top"} up to ${to || "the top"}`;
}

/**
 * Rings of files. Inside one folder an import of types alone may close a ring, since nothing of it runs;
 * between folders not even that.
 */
function cyclesOf(imports: ImportMap): string[] {
  const done = new Set<string>();
  const faults: string[] = [];
  const visit = (path: string, trail: readonly string[]): void => {
    const at = trail.indexOf(path);
    if (at >= 0) {
      faults.push(`a ring of imports: ${[...trail.slice(at), path].join(" → ")}`);
      return;
    }
    if (done.has(path)) return;
    for (const one of imports.get(path) ?? []) {
      const target = one.leadsTo;
      if (target === undefined || (one.typeOnly && folderOf(target) === folderOf(path))) continue;
      visit(target, [...trail, path]);
    }
    done.add(path);
  };
  for (const path of imports.keys()) visit(path, []);
  return faults;
}
