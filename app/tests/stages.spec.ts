import { expect, type Page, test } from "@playwright/test";
import { settled } from "./hands.ts";

/** The later stages, as a person uses them: pages looked at, a record said anew, the model turned, the files taken. */
async function openStage(page: Page, stage: string): Promise<void> {
  await page.goto(`./#/example/${stage}`);
  await expect(page.getByText("example, cannot be spoiled")).toBeVisible();
}

async function pressWord(page: Page, name: string | RegExp): Promise<void> {
  await page
    .getByRole("button", { name, exact: typeof name === "string" })
    .first()
    .click();
}

test("a covering said anew on its page makes other strips, and the note says what was touched", async ({
  page,
}) => {
  await openStage(page, "make");
  await expect(page.getByRole("link", { name: /^Make \d+ h, \d+ strips$/ })).toBeVisible({ timeout: 15_000 });
  await page.getByText("Say or change").click();
  await page
    .getByRole("listitem")
    .getByRole("button", { name: /Timetable wall/ })
    .first()
    .click();
  const line = page.getByLabel("As a line of the tape sheet");
  await expect(line).toHaveValue(/Kraft/);
  const before = await line.inputValue();
  expect(before).toMatch(/lap 1\/2"/);
  await line.fill(before.replace(/lap 1\/2"/, `lap 3"`));
  await pressWord(page, "Say it so");
  await expect(page.getByText(/^Touched: .*strips/)).toBeVisible();
  await page.getByText(/^Touched:/).click();
  await expect(
    page
      .locator("details[open] li")
      .filter({ hasText: /strip 1/ })
      .first(),
  ).toBeVisible();
  await pressWord(page, "Put away");
  await expect(page.getByText(/^Touched:/)).toBeHidden();
  await pressWord(page, "Undo");
  await expect(line).toHaveValue(before);
});

test("a line that cannot be read says why, and the page stays as it was", async ({ page }) => {
  await openStage(page, "make");
  await page.getByText("Say or change").click();
  const field = page.getByLabel("A line of the tape sheet");
  await field.fill("stock Nothing, roll");
  await field.press("Enter");
  await expect(page.getByRole("alert")).toBeVisible();
  await expect(field).toHaveValue("stock Nothing, roll");
});

test("the card model stands up, is looked into from the door, and a wall is laid flat", async ({ page }) => {
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  await openStage(page, "model");
  const canvas = page.getByRole("img", { name: /^The card model, seen over the table: [1-9]\d* faces/ });
  await expect(canvas).toBeVisible({ timeout: 20_000 });
  await page.waitForTimeout(600);
  const over = await canvas.screenshot();
  await pressWord(page, "From Door 1, standing");
  const inside = page.getByRole("img", { name: /^The card model, From Door 1, standing/ });
  await expect(inside).toBeVisible();
  await page.waitForTimeout(600);
  const within = await inside.screenshot();
  expect(Buffer.compare(over, within)).not.toBe(0);
  await pressWord(page, "over the table");
  await page.waitForTimeout(400);
  await pressWord(page, "Lay A-B flat");
  await expect(page.getByRole("button", { name: "Lay A-B flat", exact: true })).toHaveAttribute(
    "aria-pressed",
    "true",
  );
  await page.waitForTimeout(900);
  expect(Buffer.compare(over, await canvas.screenshot())).not.toBe(0);
  await pressWord(page, "sheets to cut");
  await expect(page.getByRole("navigation", { name: "Pages" })).toBeVisible();
  await pressWord(page, "The model");
  await expect(page.getByRole("navigation", { name: "Look from" })).toBeVisible();
  expect(faults).toEqual([]);
});

test("install says when it is done, and a shift an hour shorter is felt at once", async ({ page }) => {
  await openStage(page, "install");
  const stage = page.getByRole("link", { name: /^Install/ });
  await expect(stage).toHaveText(/done [A-Z][a-z]{2} \d\d:\d\d/, { timeout: 15_000 });
  const before = await stage.textContent();
  await page.getByText("Say or change").click();
  const field = page.getByLabel("A line of the tape sheet");
  await field.fill("rate strip 90 min, 2 people");
  await field.press("Enter");
  await expect(page.getByText(/^Touched: .*tasks/)).toBeVisible();
  await expect(stage).not.toHaveText(before ?? "");
});

test("everything that goes beside the book can be taken away as a file", async ({ page }) => {
  test.setTimeout(90_000);
  await openStage(page, "arrange");
  await settled(page, /standing/);
  await pressWord(page, "Print");
  const paper = page.getByRole("dialog");
  await pressWord(page, "The page for the fire officer");
  await expect(paper.getByRole("link", { name: /^Download/ })).toHaveCount(1, { timeout: 20_000 });
  await paper.getByText("Other files").click();
  for (const [words, ending, least] of [
    ["Lists, CSV", ".csv", 4],
    ["The hours, calendar file", ".ics", 1],
    ["Drawings at full size, DXF", ".dxf", 3],
  ] as const) {
    await pressWord(page, words);
    await expect
      .poll(() => paper.locator(`a[download$="${ending}"]`).count(), { timeout: 30_000 })
      .toBeGreaterThanOrEqual(least);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      paper.locator(`a[download$="${ending}"]`).first().click(),
    ]);
    const stream = await download.createReadStream();
    const parts: Buffer[] = [];
    for await (const part of stream) parts.push(part as Buffer);
    expect(Buffer.concat(parts).length).toBeGreaterThan(100);
  }
});
