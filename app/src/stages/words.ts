/** The stages that work so far, in the order of the job, and in a few words how far each is. */
import { printDoubt, SURE, type Units } from "@cornerwise/engine";
import type { PagedStage, Shown, StageFigures } from "../worker/messages.ts";

export const STAGES = [
  { name: "measure", words: "Measure" },
  { name: "arrange", words: "Arrange" },
  { name: "model", words: "Card model" },
  { name: "make", words: "Make" },
  { name: "install", words: "Install" },
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
  if (stage === "make" || stage === "model" || stage === "install") return laterWords(stage, derived.figures);
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

/** "31 h, 33 strips", "5 cards at 1:48", "done Fri 17:40". */
function laterWords(stage: PagedStage, figures: StageFigures): string {
  if (stage === "model")
    return figures.modelScale === undefined
      ? "no card yet"
      : `${figures.cards} cards at 1:${figures.modelScale}`;
  if (stage === "make") {
    if (figures.makingMinutes + figures.strips + figures.lengths === 0) return "nothing made yet";
    if (figures.strips + figures.lengths === 0) return `${hours(figures.makingMinutes)} of making`;
    const made = figures.strips > 0 ? `${figures.strips} strips` : `${figures.lengths} lengths`;
    return `${hours(figures.makingMinutes)}, ${made}`;
  }
  if (figures.shifts === 0)
    return figures.tasks === 0
      ? "nothing to put up yet"
      : `${hours(figures.installMinutes)} of work, no hours said`;
  if (figures.unplaced > 0) return `does not fit: ${figures.unplaced} left over`;
  return figures.done === undefined ? "nothing to do yet" : `done ${figures.done}`;
}

function hours(minutes: number): string {
  if (minutes > 0 && minutes < 30) return "under 1 h";
  return `${Math.round(minutes / 60)} h`;
}
