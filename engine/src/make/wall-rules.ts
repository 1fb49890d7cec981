/** What is wrong, risky or not known yet about the coverings of walls. */
import { listed, showOf, type FixtureKind, type ShowDocument } from "../document/tables.ts";
import { shared } from "../plane/clip.ts";
import { ringArea } from "../plane/outline.ts";
import { figureOf, ruleOf, type RuleId } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { printLength } from "../units/length.ts";
import type { CoverShare, WallWork } from "./model.ts";

/** Every snag of wall coverings: each by itself, then each wall's share. */
export function wallSnags(
  works: readonly WallWork[],
  shares: readonly CoverShare[],
  document: ShowDocument,
): readonly Snag[] {
  const { units } = showOf(document);
  const print = (mm: number): string => printLength(mm, units);
  return [
    ...notOnRolls(document),
    ...wallLost(document),
    ...works.flatMap((work) => [
      ...placeSnags(work, document),
      ...rollSnags(work, print),
      ...narrowSnags(work, document, print),
      ...roundSnags(work, document),
    ]),
    ...overlapSnags(works),
    ...shares.flatMap((share) => shareSnags(share, document)),
  ];
}

type Said = Pick<Snag, "sentence" | "mend" | "measured" | "wanted">;

function snag(
  rule: RuleId,
  of: { readonly room: string; readonly things: readonly string[] },
  said: Said,
): Snag {
  return {
    rule,
    level: ruleOf(rule).level,
    ...of,
    ...said,
    ...(said.measured === undefined ? {} : { doubt: 0 }),
  };
}

function aboutWork({ covering, stock, room }: WallWork) {
  return { room, things: [covering.id, stock.id] };
}

/** Coverings whose stock is no roll, or lost: nothing else is told of them. */
function notOnRolls(document: ShowDocument): readonly Snag[] {
  return listed(document.wallCoverings)
    .filter((covering) => document.stocks[covering.stock]?.form !== "roll")
    .map((covering) =>
      snag(
        "covering-not-on-rolls",
        { room: covering.room, things: [covering.id, covering.stock] },
        {
          sentence: `${covering.name} is to be cut from ${document.stocks[covering.stock]?.name ?? "nothing known"}, which does not come on rolls.`,
          mend: "Name a roll it is cut from.",
        },
      ),
    );
}

/** Coverings of a wall that their room has not: a corner came between its ends, or went. */
function wallLost(document: ShowDocument): readonly Snag[] {
  return listed(document.wallCoverings).flatMap((covering) => {
    const { from, to, room, name } = covering;
    const corners = listed(document.corners).filter((corner) => corner.room === room);
    const at = corners.findIndex(({ id }) => id === from);
    if (corners.length < 3 || (at >= 0 && corners[(at + 1) % corners.length]?.id === to)) return [];
    const ends = [from, to].map((id) => document.corners[id]?.name ?? "a corner that is gone");
    return [
      snag(
        "covering-no-wall",
        { room, things: [covering.id] },
        {
          sentence: `${name} is to hang from ${ends.join(" to ")}, and no wall of the room runs there.`,
          mend: "Say on which wall it hangs.",
        },
      ),
    ];
  });
}

function placeSnags(work: WallWork, document: ShowDocument): readonly Snag[] {
  const { covering, name } = work;
  const side = Object.values(document.walls).find(
    (wall) => wall.room === work.room && wall.from === covering.from && wall.to === covering.to,
  );
  const found: Snag[] = [];
  if (side?.refused)
    found.push(
      snag("covering-refused", aboutWork(work), {
        sentence: `The venue lets nothing be put on ${name}, and ${covering.name} is to hang there.`,
        mend: "Leave the wall bare, or ask the venue again and write its answer down.",
      }),
    );
  if (side?.open || side?.glass)
    found.push(
      snag("covering-no-wall", aboutWork(work), {
        sentence: `${covering.name} is to hang on ${name}, where ${side.glass ? "there is glass" : "no wall stands"}.`,
        mend: "Hang it on a wall, or say that a wall stands there.",
      }),
    );
  return found;
}

function rollSnags(work: WallWork, print: (mm: number) => string): readonly Snag[] {
  const { covering, stock, strips } = work;
  if (covering.lap >= stock.width)
    return [
      snag("covering-not-on-rolls", aboutWork(work), {
        sentence: `${covering.name} laps by ${print(covering.lap)}, and a roll of ${stock.name} is only ${print(stock.width)} wide.`,
        measured: covering.lap,
        wanted: stock.width,
        mend: "Make the lap less.",
      }),
    ];
  const most = figureOf("too-many-to-cut", "most", "");
  const step = stock.width - covering.lap;
  const length = work.outline[1]?.x ?? 0;
  if (length / step > most)
    return [
      snag("too-many-to-cut", aboutWork(work), {
        sentence: `${work.name} would take more than ${most} strips of ${stock.name}, ${print(stock.width)} wide.`,
        wanted: most,
        mend: "Look at the width of the roll and the lap again.",
      }),
    ];
  if (stock.match !== "free" && stock.repeat > stock.length)
    return [
      snag("repeat-longer-than-roll", aboutWork(work), {
        sentence: `The pattern of ${stock.name} comes again only after ${print(stock.repeat)}, and a roll is ${print(stock.length)} long.`,
        measured: stock.repeat,
        wanted: stock.length,
        mend: "Look at the repeat and the roll's length again.",
      }),
    ];
  const longest = Math.max(0, ...strips.map((strip) => strip.length));
  if (longest <= stock.length) return [];
  return [
    snag("strip-longer-than-roll", aboutWork(work), {
      sentence: `A strip of ${covering.name} is cut ${print(longest)} long, and a roll of ${stock.name} has only ${print(stock.length)}.`,
      measured: longest,
      wanted: stock.length,
      mend: "Take a longer roll, or cover less of the height.",
    }),
  ];
}

function narrowSnags(work: WallWork, document: ShowDocument, print: (mm: number) => string): readonly Snag[] {
  const least = figureOf("narrow-strip", "least", showOf(document).place);
  const [narrowest] = work.strips.toSorted((a, b) => a.right - a.left - (b.right - b.left));
  const width = narrowest === undefined ? Infinity : narrowest.right - narrowest.left;
  if (narrowest === undefined || width >= least) return [];
  return [
    snag("narrow-strip", aboutWork(work), {
      sentence: `Strip ${narrowest.number} on ${work.name} is only ${print(width)} wide.`,
      measured: width,
      wanted: least,
      mend: "Carry more round the corner, lap more, or leave that stretch bare.",
    }),
  ];
}

/** Things that must stay in sight or in reach, wherever paper comes near. */
const KEPT_CLEAR: ReadonlySet<FixtureKind> = new Set<FixtureKind>([
  "outlet",
  "switch",
  "exit sign",
  "alarm",
  "extinguisher",
  "sprinkler",
  "thermostat",
  "vent",
  "panel",
  "hatch",
]);

function roundSnags(work: WallWork, document: ShowDocument): readonly Snag[] {
  const met = [...new Set(work.strips.flatMap((strip) => strip.cutRound))].flatMap((id) => {
    const fixture = document.fixtures[id];
    return fixture !== undefined && KEPT_CLEAR.has(fixture.kind) ? [fixture] : [];
  });
  if (met.length === 0) return [];
  const outlets = met.some((one) => one.kind === "outlet" || one.kind === "switch" || one.kind === "panel");
  return [
    snag(
      "covering-round",
      { room: work.room, things: [work.covering.id, ...met.map((one) => one.id)] },
      {
        sentence: `On ${work.name} the strips are cut round ${namesOf(met.map((one) => one.name))}: keep them in sight and in reach.`,
        mend: outlets
          ? "Ask the venue; turn outlets and switches off at the breaker before the knife comes near."
          : "Ask the venue how much it wants free around each.",
      },
    ),
  ];
}

/** "Outlet 1, Outlet 2 and Vent 1". */
function namesOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

function overlapSnags(works: readonly WallWork[]): readonly Snag[] {
  return works.flatMap((work, index) =>
    works.slice(0, index).flatMap((other) => {
      if (work.wall !== other.wall || work.room !== other.room) return [];
      const both = shared([work.outline], [other.outline]);
      if (Math.abs(both.reduce((sum, ring) => sum + ringArea(ring), 0)) <= TOUCH * TOUCH) return [];
      return [
        snag(
          "coverings-overlap",
          { room: work.room, things: [work.covering.id, other.covering.id] },
          {
            sentence: `${work.covering.name} and ${other.covering.name} lie on each other on ${work.name}.`,
            mend: "Say from what height to what height each goes.",
          },
        ),
      ];
    }),
  );
}

function shareSnags(share: CoverShare, document: ShowDocument): readonly Snag[] {
  const of = { room: share.room, things: share.because };
  const most = figureOf("wall-cover-share", "share", showOf(document).place);
  const percent = share.share * 100;
  const found: Snag[] = [];
  if (percent > most)
    found.push(
      snag("wall-cover-share", of, {
        sentence: `${share.name} is ${Math.round(percent)} % covered, ${share.pasted ? "all of it pasted" : "held loose"}; ${most} % is what decorative material may cover where it is counted as such.`,
        measured: percent,
        wanted: most,
        mend: share.pasted
          ? "Ask the fire officer whether pasted paper counts as the wall's finish; send this page."
          : "Ask the fire officer before making: loose paper is judged more strictly.",
      }),
    );
  if (share.share > 0 && !share.flame)
    found.push(
      snag("flame-untested", of, {
        sentence: `What covers ${share.name} has no papers yet that say how it burns.`,
        mend: "Ask the maker for its flame test, or test a sample where the fire officer says how.",
      }),
    );
  return found;
}
