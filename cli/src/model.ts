/** `cornerwise model FILE`: the card model's parts at the scale of the show's grid paper. */
import { type CardPart, type Derived } from "@cornerwise/engine";
import type { Command } from "commander";
import { digits, table } from "./output.ts";
import { stageVerb } from "./stage.ts";

/** The verb, ready to be added to the program. */
export function modelVerb(): Command {
  return stageVerb({
    name: "model",
    description: "work out the card model: floor plate and walls to cut, board thickness counted",
    stages: ["measure", "model"],
    json: ({ models }) => ({
      models: models.map((model) => ({
        room: model.room,
        name: model.name,
        scale: model.scale,
        board_mm: digits(model.board),
        parts: [model.floor, ...model.walls].map(partJson),
      })),
    }),
    words: modelWords,
  });
}

function ring(points: CardPart["outline"]): readonly object[] {
  return points.map(({ x, y }) => ({ x_mm: digits(x), y_mm: digits(y) }));
}

function partJson({ id, name, outline, holes, joints }: CardPart): object {
  return {
    id,
    name,
    outline: ring(outline),
    holes: holes.map((hole) => ({ record: hole.record, outline: ring(hole.outline) })),
    joints,
  };
}

function modelWords({ models }: Derived): string {
  return models
    .map((model) => {
      const rows = [model.floor, ...model.walls].map((part) => {
        const xs = part.outline.map(({ x }) => x);
        const ys = part.outline.map(({ y }) => y);
        const size = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
        return [part.name, `${size.map((mm) => mm.toFixed(1)).join(" x ")} mm`, part.joints.join(", ")];
      });
      const head = `${model.name}: 1:${model.scale}, board ${digits(model.board)} mm thick\n`;
      return head + table(["card", "size", "joints, left and right"], rows);
    })
    .join("\n");
}
