/** The pages of the later stages and the room in three dimensions: drawn when a screen asks, loaded then too. */
import {
  roomFaces,
  showOf,
  stageSheets,
  viewsFrom,
  type Derived,
  type Sheet,
  type ShowDocument,
} from "@cornerwise/engine";
import type { Questions, Space } from "./messages.ts";

/** A stage's pages for a room, as the book prints them, without a date: the screen is always of now. */
export function pages(
  { stage, room }: Questions["pages"]["ask"],
  document: ShowDocument,
  derived: Derived,
): readonly Sheet[] {
  const { name, state } = showOf(document);
  return stageSheets(stage, derived, {
    document,
    room,
    options: { stamp: { show: name, date: "as it is now", state } },
  });
}

/** The faces of a room and where it is looked at from; nothing of a room that is gone. */
export function space({ room }: Questions["space"]["ask"], document: ShowDocument, derived: Derived): Space {
  const arrangement = derived.arrangements.find((one) => one.room.room.id === room);
  if (arrangement === undefined) return { faces: [], views: [] };
  return {
    faces: roomFaces(arrangement, document, derived.making),
    views: viewsFrom(arrangement, document),
  };
}
