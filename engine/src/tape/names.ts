/** Names on the tape sheet: quoting them, and the ids made from them. The same name always gives the same id. */

/** Words that end a name or begin something else, so a name holding one is written in quotes. */
const READS_ELSE = /(?:^|\s)(?:on|at|x|by|across|from|to|above|after|no size)(?:\s|$)|\bx\d|[×,;"“”()]/iu;

/** A name as a line holds it in its middle: plain where it reads plainly, else in quotes with inner ones doubled. */
export function writtenName(name: string): string {
  const plain =
    /^\p{L}[^\p{Cc}]*$/u.test(name) &&
    !READS_ELSE.test(name) &&
    !/\d\s*$/.test(name) &&
    name === name.trim() &&
    !/\s[\d.\u00bc-\u00be\u2150-\u215e]/.test(name);
  return plain ? name : `"${name.replaceAll('"', '""')}"`;
}

/** A name or text that takes the rest of a line. */
export function writtenRest(text: string): string {
  return text === "" || text !== text.trim() || /^["“]/.test(text) || /\s{2}|[^\S ]/u.test(text)
    ? `"${text.replaceAll('"', '""')}"`
    : text;
}

/** Lower-case letters and digits joined by dashes, at most `limit` of them; `otherwise` where nothing is left. */
export function slug(name: string, limit: number, otherwise: string): string {
  return keptCase(name.toLowerCase(), limit, otherwise);
}

/** The same with capitals kept: corners A and a are two. */
export function keptCase(name: string, limit: number, otherwise: string): string {
  const joined = name
    .slice(0, limit * 4)
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  const short = Array.from(joined).slice(0, limit).join("").replace(/-$/, "");
  return short === "" ? otherwise : short;
}
