/** Lines about materials as they are bought, and the strips a wall is covered with. */
import type { Stock, WallCovering } from "../document/tables.ts";
import { nameBeforeSize, readClauses, sizesAt } from "./clauses.ts";
import type { Clauses } from "./clauses.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf, stripsKey } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { slug } from "./names.ts";
import { fullName, headOf, nextName } from "./wall-lines.ts";

type Said<T> = { -readonly [K in keyof T]?: T[K] };

/** A stock by its name, up to a comma; fails where there is none, or none of that form. */
export function stockAt(cursor: Cursor, draft: Draft, form: Stock["form"]): Stock {
  const start = cursor.skip();
  const name = cursor.nameUntilComma();
  const found = draft.find("stocks", keyOf("", name));
  if (found === undefined) {
    const like = { roll: `36" x 100'`, stick: `7 1/4" x 8'`, sheet: `40" x 60"` }[form];
    return cursor.fail(
      `There is no stock "${name}" yet. Say it in a line above, like: stock ${name}, ${form} ${like}`,
      start,
    );
  }
  if (found.form !== form) {
    return cursor.fail(
      `${found.name} comes as a ${found.form}; what is wanted here comes as a ${form}.`,
      start,
    );
  }
  return found;
}

/**
 * `stock Kraft, roll 36" x 100', pattern every 18" drop, price 48.00`; `stick 7 1/4" x 8', kerf 1/8"`;
 * `sheet 40" x 60" x 3/16" thick, grained, passes flame test`.
 */
export function readStock(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const name = nameBeforeSize(cursor);
  const said: Said<Stock> = {};
  readClauses(cursor, stockClauses(cursor, draft, said));
  const { form, width, length, price } = said;
  if (form === undefined || width === undefined || length === undefined) {
    cursor.fail(`How is it bought? Say it like: roll 36" x 100', stick 7 1/4" x 8' or sheet 40" x 60"`);
  }
  const taken = (): never => cursor.fail(`There is a stock ${name} already.`, start);
  const known = draft.known("stocks", keyOf("", name), taken);
  if (known !== undefined && known.form !== form) keepsForm(cursor, draft, known, start);
  const { thickness = 0, repeat = 0, match = "free", kerf = 0, grained = false, flame = false } = said;
  draft.put("stocks", {
    id: known?.id ?? draft.freshId("stocks", `stock.${slug(name, 40, "stock")}`),
    name: draft.called("stocks", known, name),
    order: known?.order ?? draft.nextOrder("stocks"),
    form,
    width,
    length,
    thickness,
    repeat,
    match,
    kerf,
    grained,
    flame,
    ...(price === undefined ? {} : { price }),
  });
}

/** What is cut from a stock already cannot be cut from another form of it. */
function keepsForm(cursor: Cursor, draft: Draft, stock: Stock, start: number): void {
  const used = (["parts", "coverings", "wallCoverings", "trims"] as const).some((table) =>
    draft
      .all(table)
      .some((record) => record.stock === stock.id || ("batten" in record && record.batten === stock.id)),
  );
  if (used)
    cursor.fail(
      `${stock.name} is a ${stock.form}, and things are cut from it. Give the new one its own name.`,
      start,
    );
}

function stockClauses(cursor: Cursor, draft: Draft, said: Said<Stock>): Clauses {
  const bought = (form: Stock["form"]) => () => {
    const [width, length, thickness, ...more] = sizesAt(cursor);
    if (said.form !== undefined || length === undefined || more.length > 0) {
      cursor.fail(`A ${form} is so wide by so long, once: ${form} 36" x 100'`);
    }
    Object.assign(said, { form, width, length, ...(thickness === undefined ? {} : { thickness }) });
    if (thickness !== undefined) cursor.takeWord("thick");
  };
  const flame = (): void => {
    said.flame = true;
  };
  return {
    before: {
      roll: bought("roll"),
      stick: bought("stick"),
      sheet: bought("sheet"),
      pattern: () => patternAt(cursor, said),
      kerf: () => {
        said.kerf = cursor.length({ zero: true });
      },
      grained: () => {
        said.grained = true;
      },
      "passes flame test": flame,
      "passes a flame test": flame,
      price: () => {
        said.price = cursor.money(draft.show().currency);
      },
    },
    after: {
      thick: (mm) => {
        said.thickness = mm;
      },
      kerf: (mm) => {
        said.kerf = mm;
      },
    },
  };
}

/** `pattern every 18" drop`: how often it comes again, and how neighbouring strips match. */
function patternAt(cursor: Cursor, said: Said<Stock>): void {
  cursor.takeWord("every");
  said.repeat = cursor.seesLength() ? cursor.length() : 0;
  const match = cursor.take(/,? ?(straight|drop|free)(?:[ -]match)?(?!\p{L})/iuy)?.[1]?.toLowerCase();
  if (match === undefined) {
    cursor.fail(
      'How do neighbouring strips match: straight, drop or free? Say it like: pattern every 18" drop',
    );
  }
  said.match = match as Stock["match"];
}

/**
 * `strips on A-B, from Kraft, pasted, lap 1/2", turn 1", extra 4", up 6", to 3' 6", dries 12 h`; `on battens from
 * Lath`, `on magnets`, `on pins` and `on panels` hold them otherwise. To the ceiling where no top is said.
 */
export function readStrips(cursor: Cursor, draft: Draft): void {
  const { name, wall } = headOf(cursor, draft);
  const said: Said<WallCovering> = {};
  readClauses(cursor, stripsClauses(cursor, draft, said));
  const { stock, fixing, lap = 0, turn = 0, extra = 0, low = 0, ...rest } = said;
  if (stock === undefined) cursor.fail("Which roll are they cut from? Say it like: from Kraft");
  if (fixing === undefined) {
    cursor.fail("How are they held? Say pasted, on battens, on magnets, on pins or on panels.");
  }
  if (said.high !== undefined && said.high <= low)
    cursor.fail("Their top is no higher than their bottom.", 0);
  const [{ room, id: from }, { id: to }] = wall;
  const called = name === undefined ? undefined : fullName("Strips", name);
  const named = (of: string): string => keyOf(room, "name", of);
  const taken = (): never => cursor.fail("There are such strips already.", 0);
  const key = called === undefined ? stripsKey({ room, from, low }) : named(called);
  const known = draft.known("wallCoverings", key, taken);
  const finalName =
    called ?? known?.name ?? nextName("Strips", (of) => draft.find("wallCoverings", named(of)) !== undefined);
  draft.put("wallCoverings", {
    id: known?.id ?? draft.freshId("wallCoverings", `${room}.strips.${slug(finalName, 32, "strips")}`),
    room,
    from,
    to,
    stock,
    fixing,
    lap,
    turn,
    extra,
    low,
    order: known?.order ?? draft.nextOrder("wallCoverings", room),
    name: finalName,
    ...rest,
  });
}

function stripsClauses(cursor: Cursor, draft: Draft, said: Said<WallCovering>): Clauses {
  const held = (fixing: WallCovering["fixing"]) => () => {
    if (said.fixing !== undefined) cursor.fail("They are held in two ways here. Which is it?", 0);
    said.fixing = fixing;
    if (fixing === "battens") battens();
  };
  const battens = (): void => {
    if (cursor.takeWord("from")) said.batten = stockAt(cursor, draft, "stick").id;
  };
  const length = (field: "lap" | "turn" | "extra" | "low") => () => {
    said[field] = cursor.length({ zero: true });
  };
  return {
    before: {
      from: () => {
        said.stock = stockAt(cursor, draft, "roll").id;
      },
      pasted: held("pasted"),
      "on battens": held("battens"),
      "on magnets": held("magnets"),
      "on pins": held("pins"),
      "on panels": held("panels"),
      "on own panels": held("panels"),
      battens: () => {
        if (cursor.word() !== "from") cursor.fail("Battens from which stick? Say it like: battens from Lath");
        battens();
      },
      lap: length("lap"),
      turn: length("turn"),
      extra: length("extra"),
      up: length("low"),
      to: () => {
        if (cursor.take(/the ceiling(?!\p{L})/iuy) === undefined) said.high = cursor.length();
      },
      dries: () => {
        said.drying = cursor.span();
      },
    },
    after: {
      lap: (mm) => {
        said.lap = mm;
      },
      extra: (mm) => {
        said.extra = mm;
      },
    },
  };
}
