/** What visitors see of the neighbours' works from where that was promised. */
import type { TrueRoom } from "../measure/model.ts";
import { sightOf } from "../plane/sight.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { NeighbourView, Standing, StandingNeighbour } from "./model.ts";

/** The view of every neighbour that is owed one. */
export function viewsOf(
  room: TrueRoom,
  neighbours: readonly StandingNeighbour[],
  standing: readonly Standing[],
): readonly NeighbourView[] {
  return neighbours.flatMap((neighbour) => {
    const { id, seenFrom } = neighbour.neighbour;
    const opening = room.openings.find((one) => one.opening.id === seenFrom);
    if (!opening) return [];
    const { start, end } = opening;
    const eye = { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 };
    return [{ neighbour: id, from: opening.opening.id, eye, ...seenOf(eye, neighbour, standing) }];
  });
}

function seenOf(
  eye: { readonly x: number; readonly y: number },
  { neighbour, outline }: StandingNeighbour,
  standing: readonly Standing[],
): { readonly seen: number; readonly hiddenBy: readonly string[] } {
  const owners: string[] = [];
  const blinds = standing.flatMap(({ blocks, placement }) =>
    blocks.map((block) => {
      owners.push(placement.id);
      return block;
    }),
  );
  const height = figureOf("neighbour-hidden", "eye", "");
  const { seen, hiddenBy } = sightOf({ ...eye, height }, { outline, low: neighbour.low }, blinds);
  return { seen, hiddenBy: [...new Set(hiddenBy.map((index) => owners[index]!))] };
}
