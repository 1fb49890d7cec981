/**
 * Short pages set one under another on one page, as long as they fit whole: a list of four rows needs no page of
 * its own. Only words, lists and sketches that are not to scale are moved; a drawing at scale keeps its page.
 */
import { boxOfItems, movedItems } from "./drafting.ts";
import { leafBox, type Leaf } from "./stamp.ts";

/** White between two that share a page, mm. */
const BETWEEN = 9;

/**
 * The leaves in their order, those beside each other in it on one page where they fit. The first one's id stays; a
 * page shared bears the title given, or the titles of all on it.
 */
export function stacked(leaves: readonly Leaf[], title?: string): readonly Leaf[] {
  const pages: Leaf[][] = [];
  let bottom = 0;
  for (const leaf of leaves) {
    const box = leafBox(leaf.paper);
    const own = boxOfItems(leaf.items).bottom;
    const page = pages.at(-1);
    const by = bottom + BETWEEN - box.top;
    const above = page?.at(-1);
    if (page && above && loose(above) && loose(leaf) && alike(above, leaf) && own + by <= box.bottom) {
      page.push({ ...leaf, items: movedItems(leaf.items, 0, by) });
      bottom = own + by;
    } else {
      pages.push([leaf]);
      bottom = own;
    }
  }
  return pages.flatMap((page) => joined(page, title));
}

function loose({ scale, known, frames }: Leaf): boolean {
  return scale === undefined && known.length === 0 && frames.length === 0;
}

function alike(a: Leaf, b: Leaf): boolean {
  return a.paper.width === b.paper.width && a.paper.height === b.paper.height;
}

function joined(page: readonly Leaf[], title: string | undefined): readonly Leaf[] {
  const [first] = page;
  if (!first) return [];
  if (page.length === 1) return page;
  return [{ ...first, title: title ?? titles(page), items: page.flatMap(({ items }) => items) }];
}

/** "Pine base: cutting and cut list; Post: cutting": what they are about is said once. */
function titles(page: readonly Leaf[]): string {
  const about = new Map<string, string[]>();
  for (const { title } of page) {
    const at = title.indexOf(": ");
    const head = at < 0 ? "" : title.slice(0, at);
    const what = at < 0 ? title : title.slice(at + 2);
    const said = about.get(head) ?? [];
    about.set(head, said);
    if (!said.includes(what)) said.push(what);
  }
  return [...about]
    .map(([head, whats]) => `${head === "" ? "" : `${head}: `}${whats.join(" and ")}`)
    .join("; ");
}
