/** What hangs from the ceiling needs the venue's word: one question for each piece, however many copies hang. */
import { listed, type Question, type ShowDocument } from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { hangs, placeOf } from "./bodies.ts";
import { opening } from "./judging.ts";
import type { Arrangement, Standing } from "./model.ts";

/** A snag for every piece that hangs while no answered question names it. */
export function hungSnags(arrangements: readonly Arrangement[], document: ShowDocument): readonly Snag[] {
  const hung = new Map<string, Standing[]>();
  for (const { standing } of arrangements)
    for (const one of standing.filter(hangs)) {
      const copies = hung.get(one.piece.id);
      if (copies) copies.push(one);
      else hung.set(one.piece.id, [one]);
    }
  const questions = listed(document.questions);
  return [...hung.values()].flatMap((copies) => hungSnag(copies, questions));
}

function hungSnag(copies: readonly Standing[], questions: readonly Question[]): readonly Snag[] {
  const [first] = copies as [Standing];
  const { id, name } = first.piece;
  const asked = questions.filter(({ text }) => names(text, name));
  if (asked.some(({ answer }) => answer.trim() !== "")) return [];
  const open = asked.map((question) => question.id);
  return [
    {
      rule: "hung-asked",
      level: "mind",
      sentence:
        open.length > 0
          ? `${opening(name)} hangs from the ceiling, and the venue has not answered yet whether it may.`
          : `${opening(name)} hangs from the ceiling, and nobody has asked the venue whether it may.`,
      things: [id, ...copies.map(({ placement }) => placement.id), ...open],
      room: first.placement.room,
      at: placeOf(first),
      mend: `Ask "May ${name} hang from the ceiling?" and write the venue's answer down.`,
    },
  ];
}

const WORD = /[\p{L}\p{N}]/u;

/** Whether a text has a name in it as words of their own, large and small letters alike. */
function names(text: string, name: string): boolean {
  const [within, sought] = [text.toLowerCase(), name.toLowerCase()];
  if (sought === "") return false;
  for (let at = within.indexOf(sought); at >= 0; at = within.indexOf(sought, at + 1)) {
    const after = within[at + sought.length] ?? "";
    // "Fog bells" speaks of the fog bell too.
    if (!WORD.test(within[at - 1] ?? "") && (!WORD.test(after) || after === "s")) return true;
  }
  return false;
}
