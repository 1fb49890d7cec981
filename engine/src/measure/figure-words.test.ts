import { expect, test } from "vitest";
import { ROUGH, SURE } from "../tolerances.ts";
import { figureWords } from "./figure-words.ts";

test("a measured length stands plain and one that rests on a guess says about", () => {
  expect(figureWords(3733.8, 1.7, "ft-in")).toBe(`12' 3"`);
  expect(figureWords(3733.8, 60, "ft-in")).toBe(`about 12' 3"`);
});

test("it begins where the 95 % doubt passes the rough limit", () => {
  expect(figureWords(2500, (ROUGH - 0.1) / SURE, "mm")).toBe("2500 mm");
  expect(figureWords(2500, (ROUGH + 0.1) / SURE, "mm")).toBe("about 2500 mm");
});
