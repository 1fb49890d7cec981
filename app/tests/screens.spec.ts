import { AxeBuilder } from "@axe-core/playwright";
import { expect, type Page, test } from "@playwright/test";
import { pieceAt, settled } from "./hands.ts";

/** Every screen, day and night, wide and narrow, held to WCAG 2.2 AA by a scanner that is not ours. */
const SIZES = { wide: { width: 1440, height: 900 }, narrow: { width: 390, height: 844 } } as const;

/** With "the drawing too" the sheet itself is scanned; elsewhere only what is laid over and round it. */
type Screen = readonly [name: string, open: (page: Page) => Promise<void>, drawn?: "the drawing too"];

async function press(page: Page, name: string): Promise<void> {
  await page.getByRole("button", { name, exact: true }).first().click();
}

/** Adds a piece a foot each way to the tray; `goes` is where it goes, nothing being the floor. */
async function addPiece(page: Page, name: string, goes: string): Promise<void> {
  await press(page, "Add a piece");
  const paper = page.getByRole("dialog", { name: "Add a piece" });
  await paper.getByLabel("Name").fill(name);
  await paper.getByLabel("Where it goes").selectOption(goes);
  for (const size of ["Width", "Depth", "Height"]) await paper.getByLabel(size).fill('12"');
  await paper.getByRole("button", { name: "Put it in the tray" }).click();
  await expect(paper).toBeHidden();
}

const SCREENS: readonly Screen[] = [
  ["Arrange", () => Promise.resolve(), "the drawing too"],
  ["Arrange with a piece chosen", (page) => pieceAt(page, "Trunk 2").focus(), "the drawing too"],
  ["Measure", (page) => page.getByRole("link", { name: /^Measure/ }).click(), "the drawing too"],
  [
    "a corner's slip",
    async (page) => {
      await page.getByRole("link", { name: /^Measure/ }).click();
      await page.locator("[data-corner=D]").click();
    },
  ],
  [
    "a wall's slip and the door form",
    async (page) => {
      await page.getByRole("link", { name: /^Measure/ }).click();
      await page.locator('[data-wall="C-D"]').focus();
      await page.keyboard.press("Enter");
      await press(page, "Door");
    },
  ],
  [
    "the readings behind why",
    async (page) => {
      await page.getByRole("link", { name: /^Measure/ }).click();
      await press(page, "why?");
    },
  ],
  [
    "a snag's slip",
    (page) =>
      page
        .getByRole("button", { name: /^Stop:/ })
        .first()
        .click(),
  ],
  ["My room", (page) => press(page, "My room")],
  [
    "the sketch",
    async (page) => {
      await press(page, "My room");
      await press(page, "Sketch it");
    },
  ],
  [
    "Print with a made page",
    async (page) => {
      await press(page, "Print");
      await press(page, "Plan and cut-outs, one page");
      await expect(page.getByRole("dialog")).toContainText(/1:\d+/, { timeout: 20_000 });
    },
  ],
  ["Add a piece", (page) => press(page, "Add a piece")],
  ["House rules", (page) => press(page, "house rules")],
  [
    "the tape sheet",
    async (page) => {
      await page.getByText("File", { exact: true }).click();
      await press(page, "Tape sheet: paste notes");
      await press(page, "Show the room as lines");
    },
  ],
  ["Make, the room unfolded", (page) => page.getByRole("link", { name: /^Make/ }).click(), "the drawing too"],
  [
    "a record's slip on a page of Make",
    async (page) => {
      await page.getByRole("link", { name: /^Make/ }).click();
      await page.getByText("Say or change").click();
      await press(page, "Pine base");
      await expect(page.getByLabel("As a line of the tape sheet")).toHaveValue(/Pine base/);
    },
  ],
  [
    "the buying list",
    async (page) => {
      await page.getByRole("link", { name: /^Make/ }).click();
      await page.getByRole("button", { name: /^Buying list/ }).click();
    },
  ],
  [
    "the card model",
    async (page) => {
      await page.getByRole("link", { name: /^Card model/ }).click();
      await expect(page.getByRole("img", { name: /^The card model/ })).toBeVisible({ timeout: 20_000 });
    },
  ],
  [
    "a form on a page of Make",
    async (page) => {
      await page.getByRole("link", { name: /^Make/ }).click();
      await page.getByText("Say or change").click();
      await press(page, "Lay a floor covering");
    },
  ],
  [
    "the hours on Install",
    async (page) => {
      await page.getByRole("link", { name: /^Install/ }).click();
      await page.getByText("Say or change").click();
      await press(page, "Say the hours");
    },
  ],
  [
    "a thing on a wall",
    async (page) => {
      await page.getByRole("button", { name: /^Hook 1, fixed/ }).focus();
      await page.keyboard.press("Enter");
      await expect(page.getByLabel("Underside above floor")).toBeVisible();
    },
  ],
  [
    "covering a wall from its slip",
    async (page) => {
      await page.getByRole("link", { name: /^Measure/ }).click();
      await page.locator('[data-wall="C-D"]').focus();
      await page.keyboard.press("Enter");
      await press(page, "Cover this wall");
    },
  ],
  [
    "Install, the schedule",
    (page) => page.getByRole("link", { name: /^Install/ }).click(),
    "the drawing too",
  ],
  [
    "what a change touched",
    async (page) => {
      await page.getByRole("link", { name: /^Install/ }).click();
      await page.getByText("Say or change").click();
      await page.getByLabel("A line of the tape sheet").fill("rate strip 40 min, 2 people");
      await page.keyboard.press("Enter");
      await page.getByText(/^Touched:/).click();
    },
  ],
  ["the file menu", (page) => page.getByText("File", { exact: true }).click()],
  [
    "an empty show",
    (page) =>
      page.goto("./#/mine/measure").then(() => expect(page.getByText("No room here yet")).toBeVisible()),
  ],
];

const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What the scanner finds on a page, each with where. */
async function scanned(scanner: AxeBuilder, where: string): Promise<string[]> {
  const { violations } = await scanner.analyze();
  return violations.map(
    (one) => `${where}: ${one.id} ${one.nodes.map((node) => node.target.join(" ")).join(" | ")}`,
  );
}

for (const [size, viewport] of Object.entries(SIZES)) {
  for (const [half, screens] of [SCREENS.slice(0, 9), SCREENS.slice(9, 17), SCREENS.slice(17)].entries()) {
    test(`no screen breaks an accessibility rule by day or by night, ${size}, part ${half + 1}`, async ({
      browser,
    }) => {
      test.setTimeout(150_000);
      const context = await browser.newContext({ viewport, colorScheme: "light", reducedMotion: "reduce" });
      const page = await context.newPage();
      const found: string[] = [];
      for (const [name, open, drawn] of screens) {
        const scanner = () => {
          // The app holds no frames, so the scanner need not open a page of its own to gather what they say.
          const whole = new AxeBuilder({ page }).setLegacyMode(true);
          return drawn ? whole : whole.exclude("[data-desk] > svg");
        };
        await page.emulateMedia({ colorScheme: "light" });
        await page.goto("./#/example/arrange");
        await page.reload();
        await settled(page, /37 standing/);
        await open(page);
        found.push(...(await scanned(scanner().withTags(TAGS), `${name} by day`)));
        // By night only colours differ: the rule about them is asked again.
        await page.emulateMedia({ colorScheme: "dark" });
        await expect(page.locator("html")).toHaveAttribute("data-look", "night");
        found.push(...(await scanned(scanner().withRules(["color-contrast"]), `${name} by night`)));
        const wider = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        if (wider > 0) found.push(`${name}: is ${wider} px wider than the screen`);
      }
      await context.close();
      expect(found).toEqual([]);
    });
  }
}

test("a finger drags a piece, the gap is read live and the drop is kept", async ({ browser }) => {
  const context = await browser.newContext({ viewport: SIZES.narrow, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  await page.goto("./");
  await settled(page, /37 standing/);
  const before = await pieceAt(page, "Rope coil").boundingBox();
  if (!before) throw new Error("the rope coil is not on the screen");
  const from = { x: before.x + before.width / 2, y: before.y + before.height / 2 };
  const wire = await context.newCDPSession(page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", by: number) =>
    wire.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: type === "touchEnd" ? [] : [{ x: from.x, y: from.y - by }],
    });
  await touch("touchStart", 0);
  for (let step = 1; step <= 4; step++) await touch("touchMove", step * 4);
  const read = page.locator("[data-gap]");
  await expect(read.first()).toBeVisible();
  const halfway = await read.allTextContents();
  for (let step = 5; step <= 8; step++) await touch("touchMove", step * 4);
  await expect.poll(() => read.allTextContents(), "the figures follow the finger").not.toEqual(halfway);
  await touch("touchEnd", 32);
  await expect(page.getByRole("button", { name: "Undo", exact: true })).toHaveAttribute(
    "title",
    "Move Rope coil",
  );
  const after = await pieceAt(page, "Rope coil").boundingBox();
  expect(Math.abs((after?.y ?? 0) - before.y + 32)).toBeLessThan(14);
  await context.close();
});

test("a cut-out dragged from the tray stands where it was let go", async ({ page }) => {
  await page.goto("./");
  await settled(page, /37 standing/);
  await addPiece(page, "Stool", "");
  const cutout = await page.getByRole("button", { name: /^Place Stool/ }).boundingBox();
  if (!cutout) throw new Error("the stool is not in the tray");
  await page.mouse.move(cutout.x + 20, cutout.y + 20);
  await page.mouse.down();
  await page.mouse.move(760, 250, { steps: 6 });
  await page.mouse.up();
  await settled(page, /38 standing/);
  const stands = await pieceAt(page, "Stool").boundingBox();
  expect(Math.abs((stands?.x ?? 0) + (stands?.width ?? 0) / 2 - 760)).toBeLessThan(3);
});

test("the planted stop is found, and sliding the covering two inches clears it", async ({ page }) => {
  await page.goto("./#/example/arrange");
  await settled(page, /3 stops/);
  await expect(page.getByRole("button", { name: /^Stop:.*2' 11 1\/4"/ })).toBeVisible();
  await page.getByText("File", { exact: true }).click();
  await press(page, "Tape sheet: paste notes");
  await press(page, "Show the room as lines");
  const lines = page.getByRole("textbox");
  await expect(lines).toHaveValue(/covering/);
  const text = await lines.inputValue();
  const slid = text.split("\n").flatMap((line) => {
    const at = /^(covering .* at )(\d+)' (\d+)(.*" along.*)$/.exec(line);
    const inches = Number(at?.[2]) * 12 + Number(at?.[3]) + 2;
    return at ? [`${at[1]}${Math.floor(inches / 12)}' ${inches % 12}${at[4]}`] : [];
  });
  expect(slid.length, text).toBe(1);
  await lines.fill(slid.join("\n"));
  await press(page, "Read these lines");
  await expect(page.getByText("All of it is read.")).toBeVisible();
  // Both tubes that stand out too far are left.
  await settled(page, /2 stops/);
  await expect(page.getByRole("button", { name: /^Stop:.*2' 11 1\/4"/ })).toHaveCount(0);
});

test("two tabs show the same show, and one's undo leaves the other's later change alone", async ({
  context,
}) => {
  const [one, two] = [await context.newPage(), await context.newPage()];
  await one.goto("./#/mine/measure");
  await one.getByRole("button", { name: "Begin my room" }).click();
  for (const [wall, length] of [
    ["A-B", "10'"],
    ["B-C", "8'"],
  ] as const)
    await one.getByRole("textbox", { name: `Wall ${wall}` }).fill(length);
  for (const [wall, length] of [
    ["C-D", "10'"],
    ["D-A", "8'"],
  ] as const)
    await one.getByRole("textbox", { name: `Wall ${wall}` }).fill(length);
  await one.getByRole("button", { name: "Draw it" }).click();
  await settled(one, /4 walls/);
  await two.goto("./#/mine/measure");
  await settled(two, /4 walls/);
  const slip = two.getByRole("region", { name: "Entry slip" });
  await slip.getByRole("textbox").fill(`12' 9 5/8"`);
  await two.keyboard.press("Enter");
  await expect(one.getByRole("region", { name: "Entry slip" }).getByText("B to D:")).toBeVisible();
  await expect(one.getByRole("button", { name: "Undo", exact: true })).toHaveAttribute(
    "title",
    "Start my room",
  );
});

test("the app opens again with the network off, with what was made in it", async ({ context }) => {
  const page = await context.newPage();
  await page.goto("./");
  await settled(page, /37 standing/);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.waitForTimeout(3000);
  await context.setOffline(true);
  await page.reload();
  await settled(page, /37 standing/);
  await press(page, "Print");
  await press(page, "Plan and cut-outs, one page");
  await expect(page.getByRole("dialog")).toContainText(/1:\d+/, { timeout: 20_000 });
});

test("a file that cannot be read says every reason and changes nothing", async ({ page }) => {
  await page.goto("./");
  await settled(page, /37 standing/);
  const broken = { cornerwise: 1, tables: { rooms: { r: { id: "r", name: "", order: -1, turn: "up" } } } };
  await page.getByLabel("Open a file").setInputFiles({
    name: "broken.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(broken)),
  });
  const paper = page.getByRole("dialog", { name: "Not all of it could be read" });
  await expect(paper.getByRole("listitem")).not.toHaveCount(1);
  await expect(paper).toContainText("rooms");
  await paper.getByRole("button", { name: "Close", exact: true }).click();
  await settled(page, /37 standing/);
});

test("names with markup are shown as they are written", async ({ page }) => {
  await page.goto("./");
  await settled(page, /37 standing/);
  await page.getByText("File", { exact: true }).click();
  await press(page, "Tape sheet: paste notes");
  await page
    .getByRole("textbox")
    .fill(`piece <img src=x onerror=alert(1)> x2, 2' x 2' x 2'\npiece حقيبة, 1' x 1' x 1'`);
  await press(page, "Read these lines");
  await page.getByRole("button", { name: "Close", exact: true }).last().click();
  await expect(
    page.getByRole("button", { name: "Place <img src=x onerror=alert(1)>, 2 waiting" }),
  ).toBeVisible();
  expect(await page.locator("img").count()).toBe(0);
});
