/** Work no record calls for by itself: the lights, the labels. It comes when the person said, and before the room is cleaned. */
import { listed, type Chore, type ShowDocument } from "../document/tables.ts";
import { INSTALL_WORKS, type InstallWork } from "../document/works.ts";
import type { Task } from "./model.ts";

export interface ChoreTasks {
  /** To be done before the room is cleaned. */
  readonly before: readonly Task[];
  /** Said to come after cleaning, and after the walk round. */
  readonly cleaned: readonly Task[];
  readonly signed: readonly Task[];
}

/**
 * The chores of a room, behind its other tasks. A chore after a kind of work that the room has none of comes after
 * the nearest kind before it. A chore after chores comes after all that do not say so themselves.
 */
export function choreTasks(document: ShowDocument, room: string, tasks: readonly Task[]): ChoreTasks {
  const here = listed(document.chores).filter((chore) => chore.room === room);
  const first = here
    .filter(({ after }) => !["chore", "clean", "sign off"].includes(after))
    .map((chore) => choreTask(chore, afterKind(chore.after, tasks)));
  const second = here
    .filter(({ after }) => after === "chore")
    .map((chore) => choreTask(chore, first.length > 0 ? first : afterKind("chore", tasks)));
  const of = (after: InstallWork): readonly Task[] =>
    here.filter((chore) => chore.after === after).map((chore) => choreTask(chore, []));
  return { before: [...first, ...second], cleaned: of("clean"), signed: of("sign off") };
}

/** The tasks of a kind; where there are none, of the nearest kind before it that has some. */
function afterKind(work: InstallWork, tasks: readonly Task[]): readonly Task[] {
  for (let at = INSTALL_WORKS.indexOf(work); at >= 0; at -= 1) {
    const found = tasks.filter((task) => task.work === INSTALL_WORKS[at]);
    if (found.length > 0) return found;
  }
  return [];
}

function choreTask(chore: Chore, after: readonly Task[]): Task {
  return {
    id: `chore~${chore.id}`,
    work: "chore",
    room: chore.room,
    name: chore.name,
    minutes: Math.max(1, Math.ceil(chore.minutes - 1e-9)),
    people: chore.people,
    why: "as said",
    own: true,
    after: after.map(({ id, work }) => ({ task: id, lag: 0, why: `it comes after ${AFTER_WORDS[work]}` })),
    because: [chore.id],
  };
}

/** Kinds of work as one speaks of them. */
export const AFTER_WORDS: { readonly [W in InstallWork]: string } = {
  receive: "receiving",
  protect: "protecting the floor",
  record: "the photographs",
  "set out": "setting out",
  batten: "the battens",
  strip: "the wall coverings",
  trim: "the trim",
  floor: "the floor coverings",
  furniture: "the furniture",
  hung: "what hangs",
  accessory: "the accessories",
  fitting: "the fittings",
  chore: "the other chores",
  clean: "cleaning",
  "sign off": "the walk round",
};
