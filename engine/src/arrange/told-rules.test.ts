/** What is told of a room: who was asked, how many it takes, what is seen from outside. */
import { describe, expect, it } from "vitest";
import { ROOM, snagsOf, withBoxes, type BoxWish } from "../testing/fixed.ts";
import type { RoomWish } from "../testing/arranged.ts";
import type { Snag } from "../snags/snag.ts";
import { netFloor, peopleOn } from "./capacity.ts";
import { arrangeSnags } from "./rules.ts";

const IN = 25.4;

describe("hung-asked", () => {
  const lamp: BoxWish = { name: "Lamp", at: [3000, -2000], size: [200, 200, 200], low: 2200, layer: "hung" };
  const asked = (text: string, answer: string): readonly Snag[] => {
    const { arrangement, document } = withBoxes(ROOM, {
      boxes: [lamp, { ...lamp, name: "Lamp", at: [2000, -2000] }],
    });
    const questions = { q: { id: "q", order: 0, text, answer } };
    return arrangeSnags([arrangement], { ...document, questions }).filter(
      ({ rule }) => rule === "hung-asked",
    );
  };

  it("minds each piece once until an answered question names it", () => {
    expect(asked("Who has the key?", "I do.")).toHaveLength(1);
    expect(asked("May the lamp hang?", "")[0]?.sentence).toContain("has not answered");
    expect(asked("May the lamplight be dimmed?", "Yes.")).toHaveLength(1);
    expect(asked("May both lamps hang?", "Yes.")).toEqual([]);
  });
});

describe("capacity", () => {
  const SQUARE_FOOT = (12 * IN) ** 2;

  it("gives the loads of the code's worked rooms (International Building Code, table 1004.5: 720 sq ft at 15 and at 30)", () => {
    expect(peopleOn(720 * SQUARE_FOOT, 15 * SQUARE_FOOT)).toBe(48);
    expect(peopleOn(720 * SQUARE_FOOT, 30 * SQUARE_FOOT)).toBe(24);
    expect(peopleOn(4500 * SQUARE_FOOT, 15 * SQUARE_FOOT)).toBe(300);
  });

  it("tells 7 people in a room of 24 by 16 1/2 feet 40 % taken by work, 15 at half the space for each", () => {
    const [width, depth] = [288 * IN, 198 * IN];
    const wish: RoomWish = {
      corners: [
        [0, 0],
        [width, 0],
        [width, -depth],
        [0, -depth],
      ],
    };
    const block: BoxWish = {
      name: "Work",
      at: [width / 2, -depth / 2],
      size: [0.8 * width, 0.5 * depth, 900],
    };
    const [snag] = snagsOf("capacity", { boxes: [block] }, wish);
    expect(snag).toMatchObject({ level: "know", measured: 7 });
    expect(peopleOn(netFloor(withBoxes(wish, { boxes: [block] }).arrangement), 15 * SQUARE_FOOT)).toBe(15);
  });

  it("loses its last person a millimetre short, counts nothing that hangs, and speaks of no empty room", () => {
    const each = 30 * SQUARE_FOOT;
    const room = (width: number): RoomWish => ({
      corners: [
        [0, 0],
        [width, 0],
        [width, -each / 1000],
        [0, -each / 1000],
      ],
    });
    const peg: BoxWish = { name: "Lamp", at: [1000, -1000], size: [500, 500, 100], low: 2200, layer: "hung" };
    const people = (width: number) => snagsOf("capacity", { boxes: [peg] }, room(width))[0]?.measured;
    expect([2999, 3000, 3001].map(people)).toEqual([2, 3, 3]);
    expect(snagsOf("capacity", {})).toEqual([]);
  });
});

const screen = (left: number, height: number): BoxWish => ({
  name: "Screen",
  at: [left + 1500, -2000],
  size: [3000, 100, height],
});

const fish = (name: string, y: number): BoxWish => ({
  name,
  at: [3000, y],
  size: [260, 90, 30],
  low: 900,
});

describe("work-unseen", () => {
  const WINDOW = { open: [2] };
  const scale: BoxWish = { name: "Scale", at: [3000, -500], size: [600, 400, 1000] };
  const unseen = (left: number, height = 2000, entered = false) =>
    snagsOf("work-unseen", { boxes: [scale, screen(left, height)] }, { ...WINDOW, entered });

  it("turns where a tenth of a piece's angle is left beside what stands before it", () => {
    // The eye is at (3000, -5500). The scale spans from 2700 to 3300 at its front, y = -700, and its sides go back
    // out of sight behind that; a tenth of its angle is left of the screen's left edge, at y = -2050, by plane trigonometry.
    const half = Math.atan2(300, 4800);
    const edge = 3000 - Math.tan(0.8 * half) * 3450;
    expect([edge - 1, edge + 1].map((left) => unseen(left).length)).toEqual([1, 0]);
    expect(unseen(1500)[0]).toMatchObject({ level: "know", measured: 0, things: ["Scale", "Screen"] });
  });

  it("looks over what is low: down to the middle of the piece", () => {
    // Half of the scale is at 500, its front 4800 off; the line from the eye at 62 in is lowest over the screen's back, 3550 off.
    const line = 62 * IN - (62 * IN - 500) * (3550 / 4800);
    expect([line - 1, line + 1].map((height) => unseen(1500, height).length)).toEqual([0, 1]);
  });

  it("sees the top of what lies flat behind others as high", () => {
    const boxes = [fish("Fish 1", -650), fish("Fish 2", -800), fish("Fish 3", -950)];
    expect(snagsOf("work-unseen", { boxes }, { ...WINDOW, entered: false })).toEqual([]);
  });

  it("is not asked where visitors walk in", () => {
    expect(unseen(1500, 2000, true)).toEqual([]);
  });
});
