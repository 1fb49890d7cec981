/** The stages that work so far, in the order of the job, and in a few words how far each is. */
import { printDoubt, SURE, type Units } from "@cornerwise/engine";
import type { Shown } from "../worker/messages.ts";

export const STAGES = [
  { name: "measure", words: "Measure" },
  { name: "arrange", words: "Arrange" },
] as const;

export type StageName = (typeof STAGES)[number]["name"];

/** "good to 1/4 in", "2 stops": what a stage says of itself. */
export function stageWords(
  stage: StageName,
  derived: Shown | undefined,
  { units, roomIndex }: { readonly units: Units; readonly roomIndex: number },
): string {
  const room = derived?.rooms[roomIndex] ?? derived?.rooms[0];
  if (!derived || !room || room.corners.length === 0)
    return stage === "measure" ? "no room yet" : "nothing stands yet";
  if (stage === "measure") {
    if (!room.settled) return "not closed yet";
    const worst = Math.max(0, ...room.corners.map((corner) => Math.hypot(corner.sdX, corner.sdY)));
    const walls = room.walls.filter((wall) => !wall.open).length;
    return `${walls} ${walls === 1 ? "wall" : "walls"}, ${printDoubt(worst * SURE, units)}`;
  }
  const standing = derived.arrangements.reduce((sum, arrangement) => sum + arrangement.standing.length, 0);
  const stops = derived.snags.filter((snag) => snag.level === "stop").length;
  return `${standing} standing, ${stops === 0 ? "no stops" : stops === 1 ? "1 stop" : `${stops} stops`}`;
}
