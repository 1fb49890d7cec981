import { expect, type Page, test } from "@playwright/test";
import { type Hand, keyboard, mouse, pieceAt, savedFile, settled } from "./hands.ts";

/** The first ten minutes of somebody who has read nothing, done twice: both hands must leave the same show. */
const saved = new Map<string, string>();

async function beginRoom(page: Page, hand: Hand): Promise<void> {
  await page.goto("./");
  await expect(page.getByText("example, cannot be spoiled")).toBeVisible();
  await hand.press(page.getByRole("button", { name: "My room" }));
  const walls = { "Wall A-B": `12'`, "Wall B-C": `9' 6"`, "Wall C-D": `12-0.5`, "Wall D-A": `9ft 5.5in` };
  for (const [label, length] of Object.entries(walls))
    await hand.type(page.getByRole("textbox", { name: label }), length);
  await hand.press(page.getByRole("button", { name: "Draw it" }));
  await settled(page, /4 walls, good to/);
}

async function measureRoom(page: Page, hand: Hand): Promise<void> {
  const entry = page.getByRole("region", { name: "Entry slip" });
  for (const [ask, figure] of [
    ["A to C:", `15' 3 5/8"`],
    ["B to D:", `15 3 3/4`],
    ["height A:", `9' 2"`],
  ] as const) {
    await hand.type(entry.getByLabel(ask), figure);
    await page.keyboard.press("Enter");
  }
  await expect(entry.getByLabel("height B:")).toBeVisible();
  await hand.press(page.getByRole("button", { name: "Wall A-B" }));
  await hand.press(page.getByRole("button", { name: "Door", exact: true }));
  await hand.type(page.getByRole("textbox", { name: "From corner to edge" }), `3'`);
  await hand.type(page.getByRole("textbox", { name: "Leaf width" }), `36"`);
  await hand.type(page.getByRole("textbox", { name: "Height" }), `80"`);
  await hand.press(page.getByRole("button", { name: "Put it on A-B" }));
  await expect(page.getByRole("region", { name: "Wall A-B" })).toContainText("Door 1");
  await hand.press(page.getByRole("button", { name: "Close", exact: true }));
  await hand.press(page.getByRole("button", { name: "Wall B-C" }));
  await hand.press(page.getByRole("button", { name: "Window", exact: true }));
  await hand.type(page.getByRole("textbox", { name: "From corner to edge" }), `2' 6"`);
  await hand.type(page.getByRole("textbox", { name: "Width" }), `48"`);
  await hand.type(page.getByRole("textbox", { name: "Height" }), `48"`);
  await hand.type(page.getByRole("textbox", { name: "Sill above floor" }), `30"`);
  await hand.press(page.getByRole("button", { name: "Put it on B-C" }));
  await expect(page.getByRole("region", { name: "Wall B-C" })).toContainText("Window 1");
  await hand.press(page.getByRole("button", { name: "Close", exact: true }));
}

async function addPiece(
  page: Page,
  hand: Hand,
  name: string,
  size: readonly [string, string, string],
): Promise<void> {
  await hand.press(page.getByRole("button", { name: "Add a piece" }));
  const paper = page.getByRole("dialog", { name: "Add a piece" });
  await hand.type(paper.getByRole("textbox", { name: "Name" }), name);
  await hand.type(paper.getByRole("textbox", { name: "Width" }), size[0]);
  await hand.type(paper.getByRole("textbox", { name: "Depth" }), size[1]);
  await hand.type(paper.getByRole("textbox", { name: "Height" }), size[2]);
  await hand.press(paper.getByRole("button", { name: "Put it in the tray" }));
  await expect(paper).toBeHidden();
}

async function arrangeRoom(page: Page, hand: Hand): Promise<void> {
  await hand.press(page.getByRole("link", { name: /^Arrange/ }));
  const moves = {
    Settle: { size: [`4'`, `1' 6"`, `1' 6"`], right: 0, up: -30 },
    Crate: { size: [`18"`, `14"`, `12"`], right: 37, up: 13 },
    Lamp: { size: [`10"`, `10"`, `5'`], right: -41, up: -2 },
  } as const;
  for (const [name, { size, ...by }] of Object.entries(moves)) {
    await addPiece(page, hand, name, size);
    await hand.press(page.getByRole("button", { name: `Place ${name}, 1 waiting` }));
    await expect(pieceAt(page, name)).toBeVisible();
    await hand.push(page, name, by);
  }
  await hand.quarter(page, "Crate");
  await settled(page, /3 standing/);
  await expect(page.getByText("Nearest:")).toBeVisible();
}

async function printPage(page: Page, hand: Hand): Promise<void> {
  await hand.press(page.getByRole("button", { name: "Print", exact: true }));
  const paper = page.getByRole("dialog", { name: "On paper" });
  await hand.press(paper.getByRole("button", { name: "Plan and cut-outs, one page" }));
  await expect(paper).toContainText(/1:\d+/, { timeout: 20_000 });
  await expect(paper.getByRole("link", { name: /^Download plan and cut-outs/ })).toBeVisible();
  await hand.type(paper.getByRole("textbox", { name: "Across" }), `1 15/16"`);
  await hand.press(paper.getByRole("button", { name: "Put the next print right" }));
  await expect(paper).toContainText("put right by 3.2 % across and 0.0 % down");
  await hand.press(paper.getByRole("button", { name: "Close", exact: true }));
}

test.describe.serial("both hands", () => {
  for (const hand of [mouse, keyboard]) {
    test(`a room is begun, measured, arranged and printed by ${hand.name} alone`, async ({ page }) => {
      test.setTimeout(120_000);
      await beginRoom(page, hand);
      await measureRoom(page, hand);
      await arrangeRoom(page, hand);
      await printPage(page, hand);
      const file = await savedFile(page);
      saved.set(hand.name, file);
      await page.reload();
      await settled(page, /3 standing/);
      expect(await savedFile(page)).toBe(file);
    });
  }

  test("mouse and keyboard leave the very same show", () => {
    expect(saved.get("keyboard")).toBeDefined();
    expect(saved.get("keyboard")).toBe(saved.get("mouse"));
  });
});

test("everything done in a visit can be undone, also after a reload, and done again", async ({ page }) => {
  test.setTimeout(90_000);
  await beginRoom(page, mouse);
  const first = await savedFile(page);
  await page.goto("./#/mine/arrange");
  await addPiece(page, mouse, "Crate", [`2'`, `2'`, `2'`]);
  await mouse.press(page.getByRole("button", { name: "Place Crate, 1 waiting" }));
  await mouse.push(page, "Crate", { right: 24, up: 0 });
  await settled(page, /1 standing/);
  const last = await savedFile(page);
  expect(last).not.toBe(first);
  await page.reload();
  await settled(page, /1 standing/);
  for (let step = 0; step < 3; step++) await page.getByRole("button", { name: "Undo" }).click();
  await settled(page, /0 standing|nothing stands/);
  expect(await savedFile(page)).toBe(first);
  for (let step = 0; step < 3; step++) await page.getByRole("button", { name: "Redo" }).click();
  await settled(page, /1 standing/);
  expect(await savedFile(page)).toBe(last);
});

test("what cannot be read is said beside the field and nothing typed is lost", async ({ page }) => {
  await beginRoom(page, mouse);
  const entry = page.getByRole("region", { name: "Entry slip" });
  await entry.getByLabel("A to C:").fill("15");
  await page.keyboard.press("Enter");
  await expect(entry.getByRole("alert")).toContainText(/feet or inches/i);
  await expect(entry.getByLabel("A to C:")).toHaveValue("15");
});

test("a room is sketched by touching corners and drawn at once", async ({ page }) => {
  await page.goto("./");
  await page.getByRole("button", { name: "My room" }).click();
  await page.getByRole("button", { name: "Sketch it" }).click();
  const sketch = page.getByRole("application", { name: /^Sketch/ });
  const box = await sketch.boundingBox();
  if (!box) throw new Error("the sketch is not on the screen");
  for (const [x, y] of [
    [0.1, 0.1],
    [0.8, 0.1],
    [0.8, 0.5],
    [0.5, 0.5],
    [0.5, 0.9],
    [0.1, 0.9],
  ] as const) {
    await page.mouse.click(box.x + x * box.width, box.y + y * box.height);
  }
  await page.getByRole("button", { name: "That is its shape" }).click();
  await settled(page, /6 walls, good to/);
});
