/** What is wrong with a card model at its scale: walls too small to handle, openings too narrow to cut. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { scaleWords } from "../sheet/scales.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { boundsOf } from "../plane/outline.ts";
import type { CardModel, CardPart } from "./model.ts";

/** The snags of all models, room by room. `measured` and `wanted` are mm of board. */
export function modelSnags(models: readonly CardModel[], document: ShowDocument): readonly Snag[] {
  const { place } = showOf(document);
  const least = figureOf("walls-vanish", "least", place);
  return models.flatMap((model) => [
    ...vanishing(model, Math.max(least, 2 * model.board)),
    ...narrow(model, document),
  ]);
}

/** One snag a room: a scale too small is too small for most of its walls. */
function vanishing(model: CardModel, wanted: number): readonly Snag[] {
  const small = model.walls
    .map((part) => ({ part, side: shorterSide(part) }))
    .filter(({ side }) => side < wanted)
    .toSorted((a, b) => a.side - b.side);
  const [worst] = small;
  if (!worst) return [];
  const more = small.length > 1 ? ` and ${small.length - 1} more` : "";
  return [
    {
      rule: "walls-vanish",
      level: "mind",
      sentence: `At ${scaleWords(model.scale)}, ${worst.part.name}${more} of ${model.name} comes to ${millimetres(worst.side)} of card; less than ${millimetres(wanted)} is too little to cut and to hold.`,
      things: small.map(({ part }) => part.id.slice("card~".length)),
      room: model.room,
      measured: worst.side,
      wanted,
      mend: "Let one square of the grid stand for less, or leave the room out of the card model.",
    },
  ];
}

/** The shorter of its width and its lower side, mm of board. */
export function shorterSide({ outline }: CardPart): number {
  const { left, right } = boundsOf(outline);
  const heightAt = (x: number): number =>
    outline.reduce((most, point) => (Math.abs(point.x - x) < 1e-6 ? Math.max(most, point.y) : most), 0);
  return Math.min(right - left, heightAt(left), heightAt(right));
}

function narrow(model: CardModel, document: ShowDocument): readonly Snag[] {
  return model.walls.flatMap(({ name, holes }) =>
    holes.flatMap(({ record, outline }): readonly Snag[] => {
      const { left, right, bottom, top } = boundsOf(outline);
      const side = Math.min(right - left, top - bottom);
      if (side >= model.board) return [];
      return [
        {
          rule: "board-thick",
          level: "mind",
          sentence: `At ${scaleWords(model.scale)}, ${document.openings[record]?.name ?? "an opening"} in ${name} of ${model.name} comes to ${millimetres(side)}, narrower than the board of ${millimetres(model.board)} is thick.`,
          things: [record],
          room: model.room,
          measured: side,
          wanted: model.board,
          mend: "Take thinner board, or let one square of the grid stand for less.",
        },
      ];
    }),
  );
}

/** Rounded down, so that what is just too small never reads as large enough. */
function millimetres(value: number): string {
  return `${Math.floor(value * 10 + 1e-6) / 10} mm`;
}
