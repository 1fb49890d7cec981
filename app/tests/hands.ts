/** Two ways to do the same thing: with the mouse, and with nothing but the keyboard. */
import { expect, type Locator, type Page } from "@playwright/test";

export interface Hand {
  readonly name: string;
  press(target: Locator): Promise<void>;
  type(target: Locator, text: string): Promise<void>;
  /** Pushes a chosen piece by whole inches: right and up are positive. */
  push(page: Page, piece: string, inches: { readonly right: number; readonly up: number }): Promise<void>;
  /** Turns a piece a quarter to the left. */
  quarter(page: Page, piece: string): Promise<void>;
}

export function pieceAt(page: Page, name: string): Locator {
  return page.locator(`[data-piece="${name}"]`);
}

/** Tabs on until the target has the keyboard: what cannot be reached so fails. */
async function reach(target: Locator): Promise<void> {
  const page = target.page();
  await target.waitFor();
  for (let step = 0; step < 160; step++) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${String(target)} cannot be reached with the keyboard`);
}

/** Screen px to the inch of the room, read off the sheet as it lies. */
async function pxPerInch(page: Page): Promise<number> {
  const width = await page
    .getByRole("img", { name: /^Scale rule/ })
    .locator("svg")
    .evaluate((svg) => svg.clientWidth - 2);
  const words = await page.getByRole("img", { name: /^Scale rule/ }).getAttribute("aria-label");
  const feet = /Scale rule: (\d+)' (\d+)"/.exec(words ?? "");
  if (!feet) throw new Error(`the scale rule says ${words}`);
  return width / (Number(feet[1]) * 12 + Number(feet[2]));
}

async function drag(page: Page, from: { x: number; y: number }, to: { x: number; y: number }): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
  await page.mouse.move(to.x, to.y, { steps: 4 });
  await page.mouse.up();
}

async function middleOf(target: Locator): Promise<{ x: number; y: number }> {
  const box = await target.boundingBox();
  if (!box) throw new Error(`${String(target)} is not on the screen`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

export const mouse: Hand = {
  name: "mouse",
  press: (target) => target.click(),
  async type(target, text) {
    await target.click();
    await target.fill(text);
  },
  async push(page, piece, { right, up }) {
    const from = await middleOf(pieceAt(page, piece));
    const px = await pxPerInch(page);
    await drag(page, from, { x: from.x + right * px, y: from.y - up * px });
  },
  async quarter(page, piece) {
    await page.getByRole("button", { name: "Close", exact: true }).click();
    await pieceAt(page, piece).click();
    const middle = await middleOf(pieceAt(page, piece));
    await drag(page, await middleOf(page.locator(`[data-turn="${piece}"]`)), {
      x: middle.x + 150,
      y: middle.y,
    });
  },
};

export const keyboard: Hand = {
  name: "keyboard",
  async press(target) {
    await reach(target);
    await target.page().keyboard.press("Enter");
  },
  async type(target, text) {
    await reach(target);
    await target.page().keyboard.press("ControlOrMeta+a");
    await target.page().keyboard.type(text);
  },
  async push(page, piece, { right, up }) {
    await reach(pieceAt(page, piece));
    await nudge(page, right, ["ArrowRight", "ArrowLeft"]);
    await nudge(page, up, ["ArrowUp", "ArrowDown"]);
  },
  async quarter(page, piece) {
    await reach(pieceAt(page, piece));
    for (let step = 0; step < 6; step++) await page.keyboard.press("Alt+ArrowLeft");
  },
};

/** Whole squares with Shift, the rest inch by inch. */
async function nudge(page: Page, inches: number, [more, less]: readonly [string, string]): Promise<void> {
  const key = inches > 0 ? more : less;
  for (let square = 0; square < Math.floor(Math.abs(inches) / 12); square++)
    await page.keyboard.press(`Shift+${key}`);
  for (let inch = 0; inch < Math.abs(inches) % 12; inch++) await page.keyboard.press(key);
}

/** The open show as the file that would be saved. */
export async function savedFile(page: Page): Promise<string> {
  await page.getByText("File", { exact: true }).click();
  const coming = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as a file" }).click();
  const stream = await (await coming).createReadStream();
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString("utf8");
}

/** Waits until the engine has answered for what was last done. */
export async function settled(page: Page, words: RegExp): Promise<void> {
  await expect(page.getByRole("navigation", { name: "Stages of the job" })).toContainText(words);
}
