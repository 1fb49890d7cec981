/**
 * What has to be done in the rooms, in the trade's order: look, protect, photograph, set out; walls before trim;
 * trim, which hides the edges of the paper, before floor coverings; furniture on the floor, what hangs, accessories
 * on what carries them, small fittings last; then chores, cleaning and the walk round (common practice, no source).
 * A task is one kind of work about one record, so that a deleted record takes exactly its own tasks. The list is
 * made front to back and a task waits only for tasks already made, so it can never wait for itself.
 */
import type { Arrangement } from "../arrange/model.ts";
import type { ShowDocument } from "../document/tables.ts";
import type { InstallWork } from "../document/works.ts";
import type { Making, WallWork } from "../make/model.ts";
import { rateOf } from "../make/rates.ts";
import { PASTE_DRIES, WAITS_LIMIT } from "../tolerances.ts";
import { choreTasks } from "./chores.ts";
import { carried, fittedOf, grouped, standsOf, type Group } from "./groups.ts";
import type { Task } from "./model.ts";
import { setOutOf } from "./set-out.ts";
import { countedWords, numbersWords } from "./words.ts";

export type Wait = Task["after"][number];

/**
 * All tasks of all rooms, in the trade's order room by room. A room in which there is nothing to put up has none.
 * Every task is listed behind those it waits for.
 */
export function installTasks(
  document: ShowDocument,
  arrangements: readonly Arrangement[],
  making: Making,
): readonly Task[] {
  return arrangements.flatMap((arrangement) => roomTasks(document, arrangement, making));
}

/** What a task is made from; its minutes, people and arithmetic come from the rate of its work. */
interface Wanted {
  readonly work: InstallWork;
  readonly about: string;
  readonly name: string;
  readonly count: number;
  readonly after: readonly Wait[];
  readonly because: readonly string[];
}

type Make = (wanted: Wanted) => Task;

function roomTasks(document: ShowDocument, arrangement: Arrangement, making: Making): readonly Task[] {
  const { id } = arrangement.room.room;
  const make: Make = (wanted) => taskOf(document, id, wanted);
  const opening = openingTasks(make, arrangement);
  const ready = waitFor(opening.slice(-1), "the room is set out");
  const walls = wallTasks(make, making, { room: id, ready });
  const trims = trimTasks(make, { arrangement, making, ready, walls });
  const built = waitsOr(
    [...waitFor(bare(walls), "the walls are done"), ...waitFor(bare(trims), "the trim is on")],
    ready,
  );
  const floors = floorTasks(make, making, { room: id, built });
  const laid = waitsOr(waitFor(floors, "the floor covering lies"), built);
  const pieces = pieceTasks(make, arrangement, laid);
  const fittings = fittingTasks(make, { arrangement, ready, walls, trims, pieces });
  const body = [...bare(walls), ...bare(trims), ...floors, ...pieces, ...fittings];
  const chores = choreTasks(document, id, [...opening, ...body]);
  const chored = chores.before.length + chores.cleaned.length + chores.signed.length;
  if (body.length + chored === 0) return [];
  const done = [...opening, ...body, ...chores.before];
  const clean = make({
    work: "clean",
    about: id,
    name: "Clean",
    count: 1,
    after: waitFor(lastOf(done), "the work is done"),
    because: [id],
  });
  const cleaned = chores.cleaned.map((task) => behind(task, [clean], "the room is clean"));
  const sign = make({
    work: "sign off",
    about: id,
    name: "Walk round with the venue and sign off",
    count: 1,
    after: waitFor(lastOf([clean, ...cleaned]), "everything is done"),
    because: [id],
  });
  const signed = chores.signed.map((task) => behind(task, [sign], "it is signed off"));
  return [...done, clean, ...cleaned, sign, ...signed];
}

function taskOf(document: ShowDocument, room: string, wanted: Wanted): Task {
  const { work, about, name, count, after, because } = wanted;
  const rate = rateOf(work, document);
  return {
    id: `${work}~${about}`,
    work,
    room,
    name,
    // A whole minute is begun: nobody's watch shows less.
    minutes: Math.max(1, Math.ceil(count * rate.minutes - 1e-9)),
    people: rate.people,
    why: countedWords(work, count, rate.minutes),
    own: rate.own,
    after,
    because: [...because, ...(rate.record === undefined ? [] : [rate.record])],
  };
}

/** Waits for each of the tasks, for one reason. */
export function waitFor(tasks: readonly Task[], why: string, lag = 0): readonly Wait[] {
  return tasks.map(({ id }) => ({ task: id, lag, why }));
}

function waitsOr(waits: readonly Wait[], others: readonly Wait[]): readonly Wait[] {
  return waits.length > 0 ? waits : others;
}

/** The tasks no other of them waits for. */
export function lastOf(tasks: readonly Task[]): readonly Task[] {
  const awaited = new Set(tasks.flatMap(({ after }) => after.map(({ task }) => task)));
  return tasks.filter(({ id }) => !awaited.has(id));
}

/** The task, waiting for these tasks besides what it waits for already. */
function behind(task: Task, tasks: readonly Task[], why: string): Task {
  return { ...task, after: [...task.after, ...waitFor(tasks, why)] };
}

/** Receive, protect, photograph, set out: one after another. */
function openingTasks(make: Make, arrangement: Arrangement): readonly Task[] {
  const { id } = arrangement.room.room;
  const receive = make({
    work: "receive",
    about: id,
    name: "Receive and check",
    count: 1,
    after: [],
    because: [id],
  });
  const protect = make({
    work: "protect",
    about: id,
    name: "Protect the floor",
    count: 1,
    after: waitFor([receive], "everything is in"),
    because: [...arrangement.coverings.map(({ covering }) => covering.id), id],
  });
  const record = make({
    work: "record",
    about: id,
    name: "Photograph the bare walls",
    count: 1,
    after: waitFor([protect], "the floor is protected"),
    because: [id],
  });
  const marks = setOutOf(arrangement)?.marks ?? [];
  if (marks.length === 0) return [receive, protect, record];
  const setOut = make({
    work: "set out",
    about: id,
    name: marks.length === 1 ? "Set out 1 mark" : `Set out ${marks.length} marks`,
    count: marks.length,
    after: waitFor([record], "the bare room is photographed"),
    because: [...new Set(marks.map((mark) => mark.record)), id],
  });
  return [receive, protect, record, setOut];
}

/** A task on one wall, and the minutes before anything may be fixed over what it leaves. */
interface WallTask {
  readonly task: Task;
  readonly wall: string;
  readonly dries: number;
}

const bare = (tasks: readonly WallTask[]): readonly Task[] => tasks.map(({ task }) => task);

/** For each wall covering battens, then strips. */
function wallTasks(
  make: Make,
  making: Making,
  { room, ready }: { readonly room: string; readonly ready: readonly Wait[] },
): readonly WallTask[] {
  return making.walls
    .filter((work) => work.room === room)
    .flatMap((work) => coveringTasks(make, making, work, ready));
}

function coveringTasks(
  make: Make,
  making: Making,
  work: WallWork,
  ready: readonly Wait[],
): readonly WallTask[] {
  const { covering, wall, name, strips } = work;
  const battens = work.battens.reduce((sum, { pieces }) => sum + Math.max(1, pieces.length), 0);
  const shared = making.walls.filter((other) => other.wall === wall).length > 1;
  const what = shared ? `${name}, ${covering.name}` : name;
  const fixBattens = (): Task =>
    make({
      work: "batten",
      about: covering.id,
      name: `Fix battens on ${what}`,
      count: battens,
      after: ready,
      because: [covering.id, ...(covering.batten === undefined ? [] : [covering.batten])],
    });
  const batten = battens === 0 ? [] : [{ task: fixBattens(), wall, dries: 0 }];
  if (strips.length === 0) return batten;
  const strip = make({
    work: "strip",
    about: covering.id,
    name: strips.length === 1 ? `Hang ${what}, strip 1` : `Hang ${what}, strips 1 to ${strips.length}`,
    count: strips.length,
    after: waitsOr(waitFor(bare(batten), "the battens hold it"), ready),
    because: [covering.id, covering.stock],
  });
  const dries = covering.drying ?? (covering.fixing === "pasted" ? PASTE_DRIES : 0);
  return [...batten, { task: strip, wall, dries }];
}

const DONE_WORDS = { wet: "the paste is dry", dry: "the wall is covered", trim: "the trim is on" } as const;

/** Waits for all of a wall; what is fixed over paste waits until it is dry. */
function waitForWall(walls: readonly WallTask[], wall: string): readonly Wait[] {
  return walls
    .filter((one) => one.wall === wall)
    .flatMap(({ task, dries }) =>
      waitFor([task], DONE_WORDS[task.work === "trim" ? "trim" : dries > 0 ? "wet" : "dry"], dries),
    );
}

interface TrimWish {
  readonly arrangement: Arrangement;
  readonly making: Making;
  readonly ready: readonly Wait[];
  readonly walls: readonly WallTask[];
}

const TRIM_WORDS = { base: "base trim", rail: "rail", crown: "crown" } as const;

/** For each trim and each wall it runs along, one task. */
function trimTasks(make: Make, { arrangement, making, ready, walls }: TrimWish): readonly WallTask[] {
  return making.trims
    .filter(({ trim }) => trim.room === arrangement.room.room.id)
    .flatMap(({ trim, runs }) =>
      [...grouped(runs, ({ wall }) => wall)].map(([wall, here]) => ({
        task: make({
          work: "trim",
          about: `${trim.id}@${wall}`,
          name: `Fix ${TRIM_WORDS[trim.kind]} on ${wallName(arrangement, wall)}`,
          count: here.reduce((sum, { pieces }) => sum + Math.max(1, pieces.length), 0),
          after: waitsOr(waitForWall(walls, wall), ready),
          because: [trim.id, ...(trim.stock === undefined ? [] : [trim.stock])],
        }),
        wall,
        dries: 0,
      })),
    );
}

function wallName({ room }: Arrangement, wall: string): string {
  return room.walls.find(({ id }) => id === wall)?.name ?? wall;
}

function floorTasks(
  make: Make,
  making: Making,
  { room, built }: { readonly room: string; readonly built: readonly Wait[] },
): readonly Task[] {
  return making.floors
    .filter((floor) => floor.room === room)
    .map(({ covering, panels, border }) =>
      make({
        work: "floor",
        about: covering.id,
        name: `Lay ${covering.name}`,
        count: Math.max(1, panels.length + border.length),
        after: built,
        because: [covering.id, ...(covering.stock === undefined ? [] : [covering.stock])],
      }),
    );
}

/** What stands on the floor, what hangs, and what stands on other things, the lowest first. */
function pieceTasks(make: Make, arrangement: Arrangement, laid: readonly Wait[]): readonly Task[] {
  const groups = standsOf(arrangement);
  const taskIds = new Map(
    groups.flatMap((group) => group.placements.map((id) => [id, `${group.work}~${group.about}`])),
  );
  return groups.map((group) => {
    const carriers = carried(group, taskIds);
    const onThings = carriers.map((task): Wait => ({ task, lag: 0, why: "it stands on it" }));
    return make({
      work: group.work,
      about: group.about,
      name: groupName(group),
      count: group.placements.length,
      after: waitsOr(onThings, laid),
      because: [group.piece.id, ...group.placements],
    });
  });
}

const VERBS = { furniture: "Set up", hung: "Hang", accessory: "Put in place" } as const;

function groupName({ work, piece, numbers, depth }: Group): string {
  const what = numbersWords(piece, numbers);
  return depth > 1 ? `${VERBS[work]} ${what}, layer ${depth}` : `${VERBS[work]} ${what}`;
}

interface FittingWish extends Omit<TrimWish, "making"> {
  readonly trims: readonly WallTask[];
  readonly pieces: readonly Task[];
}

/** Mounts, by piece and wall: behind everything on that wall, and behind what stands in the room, which they locate against. */
function fittingTasks(
  make: Make,
  { arrangement, ready, walls, trims, pieces }: FittingWish,
): readonly Task[] {
  const fitted = fittedOf(arrangement);
  const around =
    fitted.length * pieces.length > WAITS_LIMIT ? [] : waitFor(lastOf(pieces), "it locates against it");
  return fitted.map(({ piece, wall, mounts, numbers }) =>
    make({
      work: "fitting",
      about: `${piece.id}@${wall}`,
      name: `Fix ${numbersWords(piece, numbers)} on ${wallName(arrangement, wall)}`,
      count: mounts.length,
      after: waitsOr([...waitForWall([...walls, ...trims], wall), ...around], ready),
      because: [piece.id, ...mounts],
    }),
  );
}
