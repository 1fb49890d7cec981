/**
 * The engine worker's mind, apart from the thread it lives on: a replica of the document, the derivation with
 * its memory, and the answers. Changes are taken up at once and derived together when nothing more waits; of
 * previews only the latest is answered; a bug costs one answer and never the document.
 */
import {
  apply,
  createDerive,
  emptyDocument,
  roomSheet,
  type Change,
  type Derived,
  type ShowDocument,
} from "@cornerwise/engine";
import type { Answer, Ask, DraggedPlacement, Question, QuestionKind, Questions, Shown } from "./messages.ts";
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
  #derive = createDerive();
  #document: ShowDocument = emptyDocument();
  #revision = 0;
  #stale = false;
  #dragged: DraggedPlacement | undefined;
  #waking = false;

  constructor(around: Surroundings) {
    this.#around = around;
  }

  hear(ask: Ask): void {
    switch (ask.kind) {
      case "open":
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
      this.#fenced(undefined, () => this.#around.post(this.#derived()));
    }
    const dragged = this.#dragged;
    this.#dragged = undefined;
    if (dragged !== undefined) {
      this.#fenced(undefined, () => {
        const preview = previewOf(this.#document, this.#derive, dragged);
        if (preview !== undefined) this.#around.post({ kind: "preview", preview });
      });
    }
    for (const question of this.#questions.splice(0)) void this.#answer(question);
  }

  #derived(): Answer {
    const derived = this.#derive(this.#document);
    return { kind: "derived", revision: this.#revision, derived: shown(derived, this.#document) };
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
    return (await this.#around.printing()).print(question.ask, document, this.#derive(document));
  }

  #fenced(number: number | undefined, work: () => void): void {
    try {
      work();
    } catch (bug) {
      // The memory of a derivation that broke off is not to be trusted.
      this.#derive = createDerive();
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

/** What was derived, with the sheet of each room drawn. */
function shown(derived: Derived, document: ShowDocument): Shown {
  return {
    ...derived,
    sheets: derived.arrangements.map((arrangement) => roomSheet(arrangement, document, {})),
  };
}

function wordsOf(bug: unknown): string {
  return bug instanceof Error ? bug.message : String(bug);
}
