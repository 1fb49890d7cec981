/** What a book is made from, derived from rooms and arrangements made by hand. */
import type { Arrangement } from "../arrange/model.ts";
import type { BookOf } from "../book/book.ts";
import type { ShowDocument } from "../document/tables.ts";
import { createInstall } from "../install/derive.ts";
import { makeOf } from "../make/derive.ts";
import { cardModels } from "../model/parts.ts";
import type { Snag } from "../snags/snag.ts";

export function bookOf(
  arrangements: readonly Arrangement[],
  document: ShowDocument,
  snags: readonly Snag[] = [],
): BookOf {
  const rooms = arrangements.map(({ room }) => room);
  const making = makeOf(document, rooms);
  const models = cardModels(document, rooms, making);
  return { arrangements, making, models, installing: createInstall()(document, arrangements, making), snags };
}
