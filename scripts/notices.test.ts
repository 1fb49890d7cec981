import { readFileSync } from "node:fs";
import { expect, it } from "vitest";

interface LockEntry {
  readonly version?: string;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
  readonly link?: boolean;
  readonly license?: string;
}

const ROOT = new URL("../", import.meta.url);
const read = (path: string) => readFileSync(new URL(path, ROOT), "utf8");
const lock = JSON.parse(read("package-lock.json")) as { packages: Record<string, LockEntry> };

/** Everything that runs on a person's machine, as "name version"; esbuild's platform parts count as one. */
const shipped = Object.entries(lock.packages)
  .filter(
    ([path, entry]) => path.includes("node_modules/") && !entry.dev && !entry.devOptional && !entry.link,
  )
  .map(([path, entry]) => ({ name: path.split("node_modules/").at(-1) ?? "", ...entry }))
  .map((entry) =>
    entry.name.startsWith("@esbuild/") ? { ...entry, name: "@esbuild/* (one a platform)" } : entry,
  );

const rows = read("NOTICES.md")
  .split("\n")
  .filter((line) => line.startsWith("| ") && !line.startsWith("| package") && !line.startsWith("| ---"))
  .map((line) =>
    line
      .split("|")
      .map((cell) => cell.trim())
      .slice(1, -1),
  );

it("lists every package that runs, at its version, and no other", () => {
  const wanted = new Set(shipped.map(({ name, version }) => `${name} ${version}`));
  expect(shipped.length).toBeGreaterThan(20);
  expect(rows.map(([name, version]) => `${name} ${version}`).toSorted()).toEqual([...wanted].toSorted());
});

it("names the licence the lock file names, and the holder", () => {
  for (const { name, version, license } of shipped) {
    const row = rows.find((cells) => cells[0] === name && cells[1] === version);
    // One package names its licence only in a file beside it.
    expect(row?.[2], name).toBe(license ?? "MIT");
    expect(row?.[3], name).not.toBe("");
  }
});

it("names only licences that let the work be handed on freely", () => {
  const free = /^(?:MIT|Apache-2\.0|BSL-1\.0|OFL-1\.1|Unlicense|MIT AND OFL-1\.1|0BSD|ISC)$/;
  for (const row of rows) expect(row[2], row[0]).toMatch(free);
});

it("says under which licence the typefaces are printed", () => {
  expect(read("NOTICES.md")).toContain("SIL Open Font License 1.1");
});
