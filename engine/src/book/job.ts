/** The job in a page: every stage in a line or two. And what is still open between the artist and the venue. */
import { listed, showOf } from "../document/tables.ts";
import { venueClock } from "../install/clock.ts";
import { stacked } from "../sheet/stacked.ts";
import type { Leaf } from "../sheet/stamp.ts";
import { tableSheets } from "../sheet/tables.ts";
import { ruleOf, type Rule } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE } from "../tolerances.ts";
import { printArea, printDoubt } from "../units/figures.ts";
import { printMoney } from "../units/money.ts";
import type { BookWish } from "./drawings.ts";

const JOB = "The job in a page";

/** What every stage comes to and what holds it up; the hours in the room; what has to be mended first. */
export function jobLeaves(wish: BookWish): readonly Leaf[] {
  return stacked([...stageLeaves(wish), ...hoursInLeaves(wish), ...stopLeaves(wish)], JOB);
}

/** The hours the venue gives, and what they are filled with; nothing where none are said. */
function hoursInLeaves({ installing, document, paper }: BookWish): readonly Leaf[] {
  const clock = venueClock(installing, document);
  if (clock === undefined) return [];
  const names = new Map(installing.tasks.map((task) => [task.id, task.name]));
  return tableSheets({
    id: "job.hours",
    title: "Hours in the room",
    paper,
    columns: [
      { head: "From", share: 3.4, face: "sans-bold" },
      { head: "To", share: 3.4 },
      { head: "People", share: 1, face: "mono", align: "end" },
      { head: "Begins with", share: 3.4 },
      { head: "Ends with", share: 3.4 },
    ],
    rows: installing.shifts.map(({ shift, from, to }) => {
      const here = installing.times.flatMap(({ task, spans }) =>
        spans.filter((span) => span.shift === shift.id).map((span) => ({ task, ...span })),
      );
      const first = here.toSorted((a, b) => a.from - b.from)[0];
      const last = here.toSorted((a, b) => a.to - b.to).at(-1);
      return [
        `${clock(from).day}, ${clock(from).clock}`,
        `${clock(to).day}, ${clock(to).clock}`,
        `${shift.people}`,
        names.get(first?.task ?? "") ?? "nothing",
        names.get(last?.task ?? "") ?? "nothing",
      ];
    }),
    records: installing.shifts.map(({ shift }) => shift.id),
    empty: "",
  });
}

/** What has to be mended before anything is built; nothing where nothing has to. */
function stopLeaves({ snags, paper }: BookWish): readonly Leaf[] {
  const stops = snags.filter((snag) => snag.level === "stop");
  if (stops.length === 0) return [];
  return tableSheets({
    id: "job.stops",
    title: "Mend first",
    paper,
    columns: [
      { head: "What", share: 7.3 },
      { head: "How", share: 7.3 },
    ],
    rows: stops.slice(0, FIRST_STOPS).map(({ sentence, mend }) => [sentence, mend ?? ""]),
    ...(stops.length > FIRST_STOPS
      ? { lead: `The first ${FIRST_STOPS} of ${stops.length}; the snags have them all.` }
      : {}),
    records: stops.slice(0, FIRST_STOPS).map(({ things }) => things[0]),
    empty: "",
  });
}

/** Stops told on the page of the job: what leaves it one page. */
const FIRST_STOPS = 8;

/** One row for each stage of the job: what it comes to, and what holds it up. */
function stageLeaves(wish: BookWish): readonly Leaf[] {
  return tableSheets({
    id: "job",
    title: JOB,
    lead: "One measured room, one list of pieces, one calendar. Every figure here is worked out from the lines that were said; the pages behind show how.",
    paper: wish.paper,
    columns: [
      { head: "Stage", share: 1.6, face: "sans-bold" },
      { head: "What it comes to", share: 9 },
      { head: "What holds it up", share: 4 },
    ],
    rows: [
      ["Measure", measureWords(wish).join(" "), held(wish, "measure")],
      ["Arrange", arrangeWords(wish).join(" "), held(wish, "arrange")],
      ["Card model", modelWords(wish).join(" "), held(wish, "model")],
      ["Make", makeWords(wish).join(" "), held(wish, "make")],
      ["Install", installWords(wish).join(" "), held(wish, "install")],
    ],
    empty: "",
  });
}

function held({ snags }: BookWish, stage: Rule["stage"]): string {
  const here = snags.filter((snag) => ruleOf(snag.rule).stage === stage);
  const count = (level: Snag["level"]): number => here.filter((snag) => snag.level === level).length;
  const words = [
    [count("stop"), "to stop for"],
    [count("mind"), "to mind"],
  ] as const;
  const said = words.filter(([many]) => many > 0).map(([many, text]) => `${many} ${text}`);
  return said.length === 0 ? "nothing" : said.join(", ");
}

function measureWords({ arrangements, document }: BookWish): readonly string[] {
  const { units } = showOf(document);
  return arrangements.map(({ room }) => {
    if (!room.settled) return `${room.room.name}: not closed yet.`;
    const worst = Math.max(0, ...room.corners.map(({ sdX, sdY }) => Math.hypot(sdX, sdY)));
    return `${room.room.name}: ${room.walls.length} sides, ${printArea(room.area, units)}, ${printDoubt(worst * SURE, units)}.`;
  });
}

function arrangeWords({ arrangements }: BookWish): readonly string[] {
  const standing = arrangements.reduce((sum, one) => sum + one.standing.length, 0);
  const mounted = arrangements.reduce((sum, one) => sum + one.mounted.length, 0);
  const waiting = arrangements[0]?.tray.reduce((sum, row) => sum + row.count, 0) ?? 0;
  return [
    `${standing} pieces stand or hang, ${mounted} are on the walls${waiting === 0 ? "" : `, ${waiting} wait in the tray`}.`,
  ];
}

function modelWords({ models }: BookWish): readonly string[] {
  return models.map((model) => `${model.name}: ${model.walls.length + 1} cards at 1:${model.scale}.`);
}

function makeWords({ making, document }: BookWish): readonly string[] {
  const { currency } = showOf(document);
  const strips = making.walls.reduce((sum, wall) => sum + wall.strips.length, 0);
  const lengths = making.cuts.reduce((sum, cutting) => sum + cutting.parts.length, 0);
  const panels = making.floors.reduce((sum, floor) => sum + floor.panels.length + floor.border.length, 0);
  const price =
    making.buying.length === 0
      ? "Nothing to buy."
      : `${printMoney(making.price, currency)} of material${making.unpriced === 0 ? "" : ` and ${making.unpriced} without a price yet`}.`;
  return [
    `${strips} strips, ${lengths} cut lengths, ${panels} panels and border lengths.`,
    price,
    `${hours(making.minutes)} of making.`,
  ];
}

function installWords({ installing, document }: BookWish): readonly string[] {
  const work = `${installing.tasks.length} tasks, ${hours(installing.minutes)} of work.`;
  const clock = venueClock(installing, document);
  if (clock === undefined) return [work, "No hours in the room are said yet."];
  if (installing.times.length === 0) return [work];
  const end = clock(installing.end);
  const proven =
    installing.end <= installing.bound + 0.5
      ? "and cannot be done sooner"
      : `and no plan can end before ${clock(installing.bound).clock} on ${clock(installing.bound).day}`;
  return [work, `Done at ${end.clock} on ${end.day}, ${proven}.`];
}

function hours(minutes: number): string {
  return `${(minutes / 60).toFixed(1)} h`;
}

/** What was asked of the venue, and what the show itself still owes an answer; open ones first. */
export function questionLeaves(wish: BookWish): readonly Leaf[] {
  const said = listed(wish.document.questions);
  const open = said.filter((question) => question.answer === "");
  const owed = wish.snags.filter((snag) => ASKS_THE_VENUE.has(snag.rule));
  return tableSheets({
    id: "questions",
    title: "Open questions to the venue",
    lead: "If it is not on the drawing both sides initialled, it was not agreed.",
    paper: wish.paper,
    columns: [
      { head: "No.", share: 0.7, face: "mono", align: "end" },
      { head: "Question", share: 8 },
      { head: "Answer, and who gave it", share: 6 },
    ],
    rows: [
      ...open.map((question) => [question.text, ""] as const),
      ...owed.map((snag) => [[snag.sentence, snag.mend ?? ""].join(" ").trim(), ""] as const),
      ...said.filter((one) => one.answer !== "").map(({ text, answer }) => [text, answer] as const),
    ].map(([text, answer], index) => [`${index + 1}`, text, answer]),
    records: [
      ...open.map(({ id }) => id),
      ...owed.map(() => undefined),
      ...said.filter((one) => one.answer !== "").map(({ id }) => id),
    ],
    empty: "Nothing is open.",
  });
}

/** Rules whose snags only the venue can answer. */
const ASKS_THE_VENUE: ReadonlySet<string> = new Set([
  "hung-asked",
  "wall-cover-share",
  "covering-round",
  "no-access",
]);
