/**
 * The show file: JSON with a version and the tables. Read all or nothing, with every reason at once; written in
 * one canonical form, so that the same document is always the same bytes.
 */
import { z } from "zod";
import { brokenLinks, pathOf } from "./links.ts";
import type { Problem } from "./problem.ts";
import { DOCUMENT_VERSION, TABLES } from "./schema.ts";
import { EMPTY_SHOW, SHOW_ID, TABLE_NAMES } from "./tables.ts";
import type { ShowDocument } from "./tables.ts";
import { carriedForward } from "./versions.ts";
import type { RawTables } from "./versions.ts";

export type ShowRead =
  | { readonly ok: true; readonly document: ShowDocument }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The name of the version field, by which a show file is known. */
const MARK = "cornerwise";

/** Beyond these the list tells nobody anything new. */
const MOST_PROBLEMS = 500;

const tables = z.strictObject(
  Object.fromEntries(TABLE_NAMES.map((name) => [name, z.record(z.string(), TABLES[name].record).optional()])),
);
const file = z.strictObject({ [MARK]: z.literal(DOCUMENT_VERSION), tables });

/**
 * Reads a show file. Either the whole document, or every reason why not: broken JSON (line and character),
 * another kind of file, a newer version, records the schema refuses (path), records that do not fit each other.
 * Tables that are not there are empty; a file without a show record gets the empty one.
 */
export function readShow(text: string): ShowRead {
  const parsed = parsedJson(text);
  if (!parsed.ok) return { ok: false, problems: [parsed.problem] };
  const version = versionOf(parsed.value);
  if (typeof version !== "number") return { ok: false, problems: [version] };
  const envelope = parsed.value as { readonly tables?: RawTables };
  const carried =
    version < DOCUMENT_VERSION && isObject(envelope.tables)
      ? { ...envelope, [MARK]: DOCUMENT_VERSION, tables: carriedForward(envelope.tables, version) }
      : envelope;
  const reserved = reservedIds(carried.tables);
  if (reserved.length > 0) return { ok: false, problems: capped(reserved) };
  const checked = file.safeParse(carried);
  if (!checked.success) {
    return { ok: false, problems: capped(checked.error.issues.flatMap((issue) => spoken(issue))) };
  }
  const document = completed(checked.data.tables);
  const problems = brokenLinks(document);
  return problems.length === 0 ? { ok: true, document } : { ok: false, problems: capped(problems) };
}

/** Ids every object knows already: the schema library would pass over `__proto__` without a word. */
function reservedIds(raw: unknown): readonly Problem[] {
  return Object.entries(isObject(raw) ? raw : {}).flatMap(([table, records]) =>
    Object.keys(isObject(records) ? records : {})
      .filter((id) => id in {})
      .map((id) => ({ path: pathOf(table, id, ""), reason: `"${id}" cannot be an id.` })),
  );
}

function capped(problems: readonly Problem[]): readonly Problem[] {
  if (problems.length <= MOST_PROBLEMS) return problems;
  const left = problems.length - MOST_PROBLEMS;
  return [...problems.slice(0, MOST_PROBLEMS), { reason: `And ${left} more like these.` }];
}

function completed(read: Partial<ShowDocument>): ShowDocument {
  const whole = Object.fromEntries(TABLE_NAMES.map((name) => [name, read[name] ?? {}])) as ShowDocument;
  return Object.keys(whole.shows).length === 0 ? { ...whole, shows: { [SHOW_ID]: EMPTY_SHOW } } : whole;
}

type Json =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problem: Problem };

function parsedJson(text: string): Json {
  const clean = text.startsWith("\uFEFF") ? text.slice(1) : text;
  if (clean.trim() === "") return { ok: false, problem: { line: 1, reason: "The file is empty." } };
  try {
    return { ok: true, value: JSON.parse(clean) as unknown };
  } catch (fault) {
    if (!(fault instanceof SyntaxError)) throw fault;
    return { ok: false, problem: brokenJson(clean, fault.message) };
  }
}

/** Where the parser stopped. Engines word it differently; all of them say a position or mean the end. */
function brokenJson(text: string, message: string): Problem {
  const said = /position (\d+)/.exec(message)?.[1];
  const byLine = /line (\d+) column (\d+)/.exec(message);
  const cut = said === undefined ? byLine === null : Number(said) >= text.trimEnd().length;
  if (cut) {
    const line = text.split("\n").length;
    return { line, reason: "The file breaks off before its end. Was it copied or saved whole?" };
  }
  const before = said === undefined ? undefined : text.slice(0, Number(said));
  const line = before === undefined ? Number(byLine?.[1] ?? 1) : before.split("\n").length;
  const at =
    before === undefined ? Number(byLine?.[2] ?? 1) - 1 : before.length - before.lastIndexOf("\n") - 1;
  return { line, at, reason: "This is not a show file: it is no sound JSON from here on." };
}

/** The file's version, or why it has none that this build reads. */
function versionOf(value: unknown): number | Problem {
  const version = isObject(value) ? value[MARK] : undefined;
  if (version === undefined) {
    return { reason: `This is not a show file: it has no "${MARK}" version at its head.` };
  }
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) {
    return { path: MARK, reason: "The version of a show file is a whole number from 1." };
  }
  if (version > DOCUMENT_VERSION) {
    return {
      path: MARK,
      reason: `This show was saved by a newer Cornerwise (file version ${version}; this one reads up to ${DOCUMENT_VERSION}). Update, then open it again. Nothing was changed.`,
    };
  }
  return version;
}

function isObject(value: unknown): value is { readonly [key: string]: unknown } {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** One schema issue in plain words. An unknown field speaks once for each field. */
function spoken(issue: z.core.$ZodIssue): readonly Problem[] {
  const path = issue.path[0] === "tables" ? issue.path.slice(1) : issue.path;
  const [table, id, ...rest] = path.map(String);
  const field = rest.reduce((all, part) => (/^\d+$/.test(part) ? `${all}[${part}]` : `${all}.${part}`), "");
  const place = id === undefined ? (table ?? "") : pathOf(table ?? "", id, field.replace(/^\./, ""));
  const at = place === "" ? {} : { path: place };
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({
      path: place === "" ? key : `${place}.${key}`,
      reason: "Nobody knows this field here.",
    }));
  }
  return [{ ...at, reason: plainly(issue) }];
}

function plainly(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return issue.input === undefined && issue.message.includes("received undefined")
        ? `This is missing: ${issue.expected} wanted.`
        : `This should be ${issue.expected === "int" ? "a whole number" : `of the kind ${issue.expected}`}.`;
    case "too_small":
      return issue.origin === "number"
        ? `This should be ${issue.inclusive === true ? "at least" : "more than"} ${issue.minimum}.`
        : `This should have at least ${issue.minimum}.`;
    case "too_big":
      return issue.origin === "number"
        ? `This should be at most ${issue.maximum}.`
        : `This is too long: at most ${issue.maximum}.`;
    case "invalid_format":
      if (issue.format === "datetime") return "A time is written like 2027-03-04T09:00.";
      if (issue.format === "date") return "A day is written like 2027-03-06.";
      return sentence(issue.message);
    case "invalid_value":
      return `This should be one of: ${issue.values.map((value) => JSON.stringify(value)).join(", ")}.`;
    default:
      return sentence(issue.message);
  }
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/**
 * The document as a file: tables in their order, records by id, fields by name, two spaces, a newline at the end.
 * Reading it back and writing again gives the same bytes. Empty tables are left out.
 */
export function writeShow(document: ShowDocument): string {
  const kept = TABLE_NAMES.filter((name) => Object.keys(document[name]).length > 0);
  const entries = kept.map((name) => [name, sortedKeys(document[name])] as const);
  return `${JSON.stringify({ [MARK]: DOCUMENT_VERSION, tables: Object.fromEntries(entries) }, null, 2)}\n`;
}

function sortedKeys(value: unknown): unknown {
  if (!isObject(value)) return value;
  const keys = Object.keys(value).toSorted();
  return Object.fromEntries(keys.map((key) => [key, sortedKeys(value[key])]));
}

/** The JSON Schema (draft 2020-12) of a show file of the newest version. */
export function jsonSchema(): object {
  return { title: "Cornerwise show", ...z.toJSONSchema(file) };
}
