import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { cornerwise, ROOT } from "./testing/run.ts";

const BAD = join(ROOT, "cases", "bad");
const files = existsSync(BAD) ? readdirSync(BAD).filter((name) => /\.(?:txt|json)$/.test(name)) : [];

describe("the corpus of bad input", () => {
  it("is there", () => expect(files.length).toBeGreaterThan(5));

  it.each(files)("%s is answered with reasons or snags, never with a fault", async (name) => {
    const { code, out, err } = await cornerwise(["check", join(BAD, name), "--json"]);
    expect(err).not.toContain("fault in Cornerwise");
    expect([0, 1, 2]).toContain(code);
    const { snags, problems } = JSON.parse(out) as {
      snags: { level: string; sentence: string }[];
      problems: { reason: string; line?: number; path?: string }[];
    };
    expect(snags.length + problems.length).toBeGreaterThan(0);
    expect(code === 2).toBe(problems.length > 0);
    if (code === 1) expect(snags.some((snag) => snag.level === "stop")).toBe(true);
    for (const { reason } of problems) expect(reason.length).toBeGreaterThan(10);
  });
});
