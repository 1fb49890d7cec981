/**
 * The engine worker's mind, apart from the thread it lives on: a replica of the document, the derivation with
 * its memory, and the answers. Changes are taken up at once and derived together when nothing more waits; of
 * previews only the latest is answered; a bug costs one answer and never the document.
 */
import {
  apply,
  createDerive,
  emptyDocument,
  ripple,
  roomSheet,
  showOf,
  venueClock,
  writeRecord,
  type Change,
  type Derivation,
  type Derived,
  type ShowDocument,
} from "@cornerwise/engine";
import type {
  Answer,
  Ask,
  DraggedPlacement,
  Question,
  QuestionKind,
  Questions,
  Shown,
  StageFigures,
} from "./messages.ts";
import { previewOf } from "./preview.ts";
import { readFile, readLine } from "./reading.ts";
import { tapeFile, showFile } from "./written.ts";

export interface Surroundings {
  post(answer: Answer): void;
  /** Runs the work once the messages that wait have been heard. */
  soon(work: () => void): void;
  /** The finished example as a show file. */
  exampleText(): Promise<string>;
  /** The printing part, loaded when first asked. */
  printing(): Promise<typeof import("./printing.ts")>;
  /** The part that draws the pages of the later stages, loaded when first asked. */
  paging(): Promise<typeof import("./paging.ts")>;
}

export interface Answering {
  hear(ask: Ask): void;
}

export function createAnswering(surroundings: Surroundings): Answering {
  return new Mind(surroundings);
}

class Mind implements Answering {
  readonly #around: Surroundings;
  readonly #questions: Question[] = [];
  #derive = this.#newDerive();
  #document: ShowDocument = emptyDocument();
  #revision = 0;
  #stale = false;
  #dragged: DraggedPlacement | undefined;
  #waking = false;
  /** What was derived last, to tell what a change touched; nothing after a show was opened. */
  #last: Derived | undefined;
  /** When the derivation under way began. */
  #began = 0;

  constructor(around: Surroundings) {
    this.#around = around;
  }

  hear(ask: Ask): void {
    switch (ask.kind) {
      case "open":
        this.#last = undefined;
        this.#move(ask.document, ask);
        break;
      case "change":
        this.#change(ask.change, ask);
        break;
      case "preview":
        this.#dragged = ask.placement;
        break;
      default:
        this.#questions.push(ask);
    }
    if (this.#waking) return;
    this.#waking = true;
    this.#around.soon(() => this.#work());
  }

  /** A derivation that tells of long plans, but not oftener than an eye follows. */
  #newDerive(): Derivation {
    let told = 0;
    return createDerive((share) => {
      const now = performance.now();
      if (now - this.#began < TOLD_AFTER || now - told < TOLD_EVERY) return;
      told = now;
      this.#around.post({ kind: "progress", share });
    });
  }

  #move(document: ShowDocument, { revision, more = false }: Moved): void {
    this.#document = document;
    this.#revision = revision;
    this.#stale = !more;
  }

  #change(change: Change, moved: Moved): void {
    this.#fenced(undefined, () => this.#move(apply(this.#document, change), moved));
  }

  #work(): void {
    this.#waking = false;
    if (this.#stale) {
      this.#stale = false;
      this.#fenced(undefined, () => this.#tell());
    }
    const dragged = this.#dragged;
    this.#dragged = undefined;
    if (dragged !== undefined) {
      this.#fenced(undefined, () => {
        const preview = previewOf(this.#document, this.#derive.arranged, dragged);
        if (preview !== undefined) this.#around.post({ kind: "preview", preview });
      });
    }
    for (const question of this.#questions.splice(0)) void this.#answer(question);
  }

  /** Posts what the document comes to, and after it what the change touched. */
  #tell(): void {
    const before = this.#last;
    this.#began = performance.now();
    const derived = this.#derive(this.#document);
    this.#last = derived;
    const revision = this.#revision;
    this.#around.post({ kind: "derived", revision, derived: shown(derived, this.#document) });
    // Of the first room there is no before: all of it is new.
    if (before === undefined || before.rooms.length === 0) return;
    const touches = ripple(before, derived, showOf(this.#document).units);
    const rippled = { revision, count: touches.length, touches: touches.slice(0, TOUCHES_SHOWN) };
    this.#around.post({ kind: "rippled", rippled });
  }

  async #answer(question: Question): Promise<void> {
    try {
      const answer = await this.#answerTo(question);
      this.#around.post({ kind: "answer", number: question.number, answer });
    } catch (bug) {
      this.#around.post({ kind: "fault", number: question.number, message: wordsOf(bug) });
    }
  }

  async #answerTo(question: Question): Promise<Questions[QuestionKind]["answer"]> {
    const document = this.#document;
    if (question.kind === "read-example") {
      return readFile(new TextEncoder().encode(await this.#around.exampleText()), emptyDocument());
    }
    if (question.kind === "read-file") return readFile(question.ask.bytes, document);
    if (question.kind === "read-line") return readLine(question.ask, document);
    if (question.kind === "write-file") return showFile(document);
    if (question.kind === "write-tape") return tapeFile(document);
    if (question.kind === "record-lines") {
      const { table, id } = question.ask;
      return { text: document[table][id] === undefined ? "" : writeRecord(document, table, id) };
    }
    if (question.kind === "pages" || question.kind === "space") {
      const paging = await this.#around.paging();
      const derived = this.#derive(this.#document);
      return question.kind === "pages"
        ? { sheets: paging.pages(question.ask, this.#document, derived) }
        : paging.space(question.ask, this.#document, derived);
    }
    return (await this.#around.printing()).print(question.ask, document, this.#derive(document));
  }

  #fenced(number: number | undefined, work: () => void): void {
    try {
      work();
    } catch (bug) {
      // The memory of a derivation that broke off is not to be trusted.
      this.#derive = this.#newDerive();
      this.#around.post({
        kind: "fault",
        ...(number === undefined ? {} : { number }),
        message: wordsOf(bug),
      });
    }
  }
}

interface Moved {
  readonly revision: number;
  readonly more?: boolean;
}

/** Progress is told of what takes longer than this, and at most this often, ms. */
const TOLD_AFTER = 400;
const TOLD_EVERY = 100;

/** Touched things sent one by one; beyond it only their number is told. */
const TOUCHES_SHOWN = 300;

/** What was derived, with the sheet of each room drawn and the later stages in figures. */
function shown(derived: Derived, document: ShowDocument): Shown {
  const { rooms, arrangements, snags } = derived;
  return {
    rooms,
    arrangements,
    snags,
    sheets: arrangements.map((arrangement) => roomSheet(arrangement, document, {})),
    figures: stageFigures(derived, document),
  };
}

function stageFigures({ making, models, installing }: Derived, document: ShowDocument): StageFigures {
  const end = installing.times.length === 0 ? undefined : venueClock(installing, document)?.(installing.end);
  return {
    strips: making.walls.reduce((sum, wall) => sum + wall.strips.length, 0),
    lengths: making.cuts.reduce((sum, cutting) => sum + cutting.parts.length, 0),
    makingMinutes: making.minutes,
    installMinutes: installing.minutes,
    price: making.price,
    unpriced: making.unpriced,
    ...(models[0] === undefined ? {} : { modelScale: models[0].scale }),
    cards: models.reduce((sum, model) => sum + model.walls.length + 1, 0),
    tasks: installing.tasks.length,
    shifts: installing.shifts.length,
    unplaced: installing.unplaced.length,
    ...(end === undefined ? {} : { done: `${end.day.slice(0, 3)} ${end.clock}` }),
  };
}

function wordsOf(bug: unknown): string {
  return bug instanceof Error ? bug.message : String(bug);
}
