import { expect, type Locator, type Page, test } from "@playwright/test";
import { settled } from "./hands.ts";

/** Somebody who has read nothing, with only what the screens offer: what is made, the hours, and things on things. */
async function press(within: Page | Locator, name: string): Promise<void> {
  await within.getByRole("button", { name, exact: true }).click();
}

async function beginRoom(page: Page): Promise<void> {
  await page.goto("./#/mine/make");
  await press(page, "Begin my room");
  for (const [wall, length] of Object.entries({ "A-B": "12'", "B-C": "10'", "C-D": "12'", "D-A": "10'" }))
    await page.getByRole("textbox", { name: `Wall ${wall}` }).fill(length);
  await press(page, "Draw it");
  await settled(page, /4 walls/);
}

async function addPiece(page: Page, name: string, goes: string): Promise<void> {
  await press(page, "Add a piece");
  const paper = page.getByRole("dialog", { name: "Add a piece" });
  await paper.getByLabel("Name").fill(name);
  await paper.getByLabel("Where it goes").selectOption(goes);
  for (const size of ["Width", "Depth", "Height"]) await paper.getByLabel(size).fill('12"');
  await press(paper, "Put it in the tray");
  await press(page, `Place ${name}, 1 waiting`);
}

test("a bare show says what to do first, and its forms make strips, trim, a floor and the hours", async ({
  page,
}) => {
  await beginRoom(page);
  await page.getByRole("link", { name: /^Make/ }).click();
  await expect(page.getByText("Nothing is made yet.")).toBeVisible();
  await press(page, "Cover a wall");
  await page.getByLabel("Its name").fill("Kraft 36");
  await page.getByLabel("Roll width").fill("36");
  await page.getByLabel("Roll length").fill("100'");
  await press(page, "Cover A-B");
  await expect(page.getByRole("alert"), "what cannot be read is said, and stays").toBeVisible();
  await page.getByLabel("Roll width").fill('36"');
  await press(page, "Cover A-B");
  await settled(page, /4 strips/);
  await press(page, "Run trim");
  await page.getByLabel("Height").fill('4"');
  await page.getByLabel("Stands out").fill('3/4"');
  await press(page, "Run the base");
  await expect(page.getByText(/^Touched: .*runs of trim/)).toBeVisible();
  await press(page, "Lay a floor covering");
  for (const [field, size] of [
    ["Thickness", '3/16"'],
    ["Width", "6'"],
    ["Depth", "4'"],
  ] as const)
    await page.getByLabel(field, { exact: true }).fill(size);
  await press(page, "Lay it");
  await expect(page.getByText(/^Touched: .*panel/)).toBeVisible();
  await page.getByRole("link", { name: /^Install/ }).click();
  await press(page, "Say the hours");
  await page.getByLabel("Day").fill("2027-03-04");
  await page.getByLabel("To").fill("21:00");
  await page.getByLabel("People").fill("6");
  await page.getByLabel(/^Whose clock/).fill("America/Chicago");
  await press(page, "Say these hours");
  await expect(page.getByRole("link", { name: /^Install (done|does not fit)/ })).toBeVisible();
  await press(page, "ask Who has the key?");
  await expect(page.getByLabel("A line of the tape sheet")).toHaveValue("ask Who has the key?");
  await page.keyboard.press("Enter");
  await expect(page.getByLabel("A line of the tape sheet")).toHaveValue("");
});

test("a hook on a wall, a hat on a crate and a bell overhead, and what goes takes only its own", async ({
  page,
}) => {
  await beginRoom(page);
  await page.getByRole("link", { name: /^Arrange/ }).click();
  await addPiece(page, "Crate", "");
  await settled(page, /1 standing/);
  await addPiece(page, "Hat", "accessory");
  await expect(page.getByLabel("Stands on")).toHaveValue("piece.crate~1");
  await addPiece(page, "Bell", "hung");
  await expect(page.getByLabel("Underside above floor")).toHaveValue(`7' 0"`);
  await addPiece(page, "Hook", "fitting");
  await expect(page.getByLabel("Underside above floor")).toHaveValue(`5' 0"`);
  await page.getByLabel("Underside above floor").fill(`6' 2"`);
  await page.keyboard.press("Enter");
  await expect(page.getByLabel("As a line of the tape sheet")).toHaveValue(/up 6' 2"/);
  await press(page, "Close");
  const hook = page.getByRole("button", { name: /^Hook, fixed to the wall/ });
  await hook.focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await expect(page.getByLabel("Underside above floor")).toHaveValue(`6' 1"`);
  await press(page, "Put Hook back");
  await expect(page.getByText(/^Touched: .*tasks?/)).toBeVisible();
  await page.getByText(/^Touched:/).click();
  await expect(
    page
      .locator("details[open] li")
      .filter({ hasText: /Hook.*gone/ })
      .first(),
  ).toBeVisible();
  await expect(page.locator("details[open] li").filter({ hasText: /Hat|Crate|Bell/ })).toHaveCount(0);
  await press(page, "Undo");
  await expect(hook).toBeVisible();
});

test("a height an inch higher is felt by the strips of its walls", async ({ page }) => {
  await page.goto("./#/example/measure");
  await settled(page, /37 standing/);
  await page.locator("[data-corner=A]").click();
  await page.getByLabel(/^Height here/).fill(`10' 3"`);
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: /^Make/ }).click();
  await expect(page.getByText(/^Touched: .*strips/)).toBeVisible();
  await page.getByText(/^Touched:/).click();
  const touched = page.locator("details[open] li");
  await expect(touched.filter({ hasText: /A-B.*strip 1\b/ }).first()).toBeVisible();
  await expect(touched.filter({ hasText: /C-D.*strip/ })).toHaveCount(0);
});

test("the card model is visited ten times and never holds more than one drawing context", async ({
  page,
}) => {
  await page.addInitScript(() => {
    const given: WebGLRenderingContext[] = [];
    const found: unknown = Object.getOwnPropertyDescriptor(HTMLCanvasElement.prototype, "getContext")?.value;
    const before = found as (this: HTMLCanvasElement, kind: string, how?: unknown) => RenderingContext | null;
    Object.defineProperty(HTMLCanvasElement.prototype, "getContext", {
      value(this: HTMLCanvasElement, kind: string, how?: unknown) {
        const context = before.call(this, kind, how);
        if (kind.startsWith("webgl") && context) given.push(context as WebGLRenderingContext);
        return context;
      },
    });
    Object.assign(window, { held: () => given.filter((one) => !one.isContextLost()).length });
  });
  // Small, so that a machine that draws without a graphics card spends its time on visits.
  test.setTimeout(90_000);
  await page.setViewportSize({ width: 420, height: 480 });
  const warned: string[] = [];
  page.on("console", (line) => warned.push(line.text()));
  await page.goto("./#/example/measure");
  await settled(page, /37 standing/);
  for (let visit = 0; visit < 10; visit++) {
    await page.goto("./#/example/model");
    await expect(page.getByRole("img", { name: /^The card model/ })).toBeVisible({ timeout: 20_000 });
    await page.goto("./#/example/measure");
    await expect(page.getByRole("navigation", { name: "Look at" })).toBeVisible();
  }
  const held = () => page.evaluate(() => (window as unknown as { held: () => number }).held());
  await expect.poll(held).toBe(0);
  expect(warned.filter((line) => /too many active/i.test(line))).toEqual([]);
});

test("a browser without three dimensions says so kindly and leads to the sheets to cut", async ({ page }) => {
  await page.addInitScript(() => {
    const found: unknown = Object.getOwnPropertyDescriptor(HTMLCanvasElement.prototype, "getContext")?.value;
    const before = found as (this: HTMLCanvasElement, kind: string, how?: unknown) => RenderingContext | null;
    Object.defineProperty(HTMLCanvasElement.prototype, "getContext", {
      value(this: HTMLCanvasElement, kind: string, how?: unknown) {
        return kind.startsWith("webgl") ? null : before.call(this, kind, how);
      },
    });
  });
  await page.goto("./#/example/model");
  await expect(page.getByRole("status").filter({ hasText: "cannot show the model" })).toBeVisible();
  await press(page, "Sheets to cut");
  await expect(page.getByRole("navigation", { name: "Pages" })).toBeVisible();
});

test("the keyboard turns the model and finds things on it by name", async ({ page }) => {
  await page.goto("./#/example/model");
  const canvas = page.getByRole("img", { name: /^The card model/ });
  await expect(canvas).toBeVisible({ timeout: 20_000 });
  await page.waitForTimeout(500);
  const before = await canvas.screenshot();
  await canvas.focus();
  for (let turn = 0; turn < 3; turn++) await page.keyboard.press("ArrowLeft");
  await page.waitForTimeout(200);
  const turned = await canvas.screenshot();
  expect(Buffer.compare(before, turned)).not.toBe(0);
  await page.getByLabel("Show on the model").selectOption({ label: "Clock post" });
  await page.waitForTimeout(200);
  expect(Buffer.compare(turned, await canvas.screenshot())).not.toBe(0);
});

test("of two rooms each has its own model and pages, chosen by name", async ({ page }) => {
  await beginRoom(page);
  await page.getByText("File", { exact: true }).click();
  await press(page, "Tape sheet: paste notes");
  await page
    .getByRole("dialog")
    .getByRole("textbox")
    .fill("room Back room\ncorners E F G H\nE to F 8'\nF to G 6'\nG to H 8'\nH to E 6'");
  await press(page, "Read these lines");
  await page.getByRole("button", { name: "Close", exact: true }).last().click();
  for (const stage of ["Make", "Card model", "Arrange"]) {
    await page.getByRole("link", { name: new RegExp(`^${stage}`) }).click();
    await page.getByLabel("Room", { exact: true }).selectOption({ label: "Back room" });
  }
  await page.getByRole("link", { name: /^Card model/ }).click();
  await expect(page.getByRole("button", { name: "Lay E-F flat" })).toBeVisible();
});
