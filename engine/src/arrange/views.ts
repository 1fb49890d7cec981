/** What visitors see of the neighbours' works from where that was promised. */
import type { TrueRoom } from "../measure/model.ts";
import { sightOf } from "../plane/sight.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Arrangement, NeighbourView, StandingNeighbour } from "./model.ts";

/** What the artist put up that may stand in the line of sight: on the floor, on others, hung and on walls. */
type Ours = Pick<Arrangement, "standing" | "mounted">;

/** The view of every neighbour that is owed one. */
export function viewsOf(
  room: TrueRoom,
  neighbours: readonly StandingNeighbour[],
  ours: Ours,
): readonly NeighbourView[] {
  return neighbours.flatMap((neighbour) => {
    const { id, seenFrom } = neighbour.neighbour;
    const opening = room.openings.find((one) => one.opening.id === seenFrom);
    if (!opening) return [];
    const { start, end } = opening;
    const eye = { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 };
    return [{ neighbour: id, from: opening.opening.id, eye, ...seenOf(eye, neighbour, ours) }];
  });
}

function seenOf(
  eye: { readonly x: number; readonly y: number },
  { neighbour, outline }: StandingNeighbour,
  { standing, mounted }: Ours,
): { readonly seen: number; readonly hiddenBy: readonly string[] } {
  const owners: string[] = [];
  const things = [
    ...standing.map(({ placement: { id }, blocks }) => ({ id, blocks })),
    ...mounted.map(({ mount: { id }, blocks }) => ({ id, blocks })),
  ];
  const blinds = things.flatMap(({ id, blocks }) =>
    blocks.map((block) => {
      owners.push(id);
      return block;
    }),
  );
  const height = figureOf("neighbour-hidden", "eye", "");
  const { seen, hiddenBy } = sightOf({ ...eye, height }, { outline, low: neighbour.low }, blinds);
  return { seen, hiddenBy: [...new Set(hiddenBy.map((index) => owners[index]!))] };
}
