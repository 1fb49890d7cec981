/**
 * Draws the items of a sheet as SVG, one element an item, in paper millimetres. The same items go to paper;
 * nothing is decided here. Items of one record stand in one group, so that a dragged piece moves as one.
 */
import { memo } from "react";
import { type Fill, type Ink, type Item, PENS, type Point } from "@cornerwise/engine";
import css from "./SheetItems.module.css";
import type { PaperArea } from "./view.ts";

/** The CSS colour of an ink in the look of the hour. */
export function inkColour(ink: Ink): string {
  return `var(--ink-${ink})`;
}

export interface ItemGroup {
  readonly record: string;
  readonly items: readonly Item[];
}

/** Items in drawing order, with neighbours of the same record gathered. */
export function grouped(items: readonly Item[]): readonly ItemGroup[] {
  const groups: { record: string; items: Item[] }[] = [];
  for (const item of items) {
    const record = item.record ?? "";
    const last = groups.at(-1);
    if (last && last.record === record) last.items.push(item);
    else groups.push({ record, items: [item] });
  }
  return groups;
}

/** What is under the finger: the items of one record, where they lie on one part of the paper. */
export interface Moved {
  readonly record: string;
  readonly transform: string;
  /** The plan's part of the paper: the same record is drawn on elevations too, and there it stays. */
  readonly within: PaperArea;
}

function lies(group: ItemGroup, area: PaperArea): boolean {
  return group.items.some((item) => {
    const at = item.kind === "stroke" ? item.points[0] : item.kind === "lettering" ? item.at : item.centre;
    return at && at.x >= area.left && at.x <= area.right && at.y >= area.top && at.y <= area.bottom;
  });
}

export const SheetItems = memo(function SheetItems({
  items,
  moved,
}: {
  readonly items: readonly Item[];
  readonly moved?: Moved | undefined;
}) {
  return (
    <g className={css["items"]} aria-hidden="true">
      {grouped(items).map((group, index) => (
        <Group
          key={`${group.record}:${index}`}
          group={group}
          transform={
            moved && moved.record === group.record && lies(group, moved.within) ? moved.transform : undefined
          }
        />
      ))}
    </g>
  );
});

const Group = memo(
  function Group({
    group,
    transform,
  }: {
    readonly group: ItemGroup;
    readonly transform: string | undefined;
  }) {
    return (
      <g data-record={group.record || undefined} transform={transform}>
        {group.items.map((item, index) => (
          <ItemShape key={index} item={item} />
        ))}
      </g>
    );
  },
  (a, b) => a.transform === b.transform && sameItems(a.group.items, b.group.items),
);

function sameItems(a: readonly Item[], b: readonly Item[]): boolean {
  return (
    a.length === b.length &&
    a.every((item, index) => item === b[index] || JSON.stringify(item) === JSON.stringify(b[index]))
  );
}

function ItemShape({ item }: { readonly item: Item }) {
  if (item.kind === "lettering") return <Letters item={item} />;
  const pen = PENS[item.pen];
  const line = {
    stroke: inkColour(item.ink ?? "graphite"),
    strokeWidth: pen.weight,
    ...(pen.dash ? { strokeDasharray: pen.dash.join(" ") } : {}),
  };
  if (item.kind === "arc") return <path {...line} fill="none" d={arcPath(item)} />;
  if (item.kind === "circle") {
    return (
      <>
        <circle {...line} cx={item.centre.x} cy={item.centre.y} r={item.radius} {...solidFill(item.fill)} />
        {item.fill?.hatch && (
          <circle cx={item.centre.x} cy={item.centre.y} r={item.radius} fill={hatchOf(item.fill)} />
        )}
      </>
    );
  }
  const points = item.points.map((point) => `${point.x},${point.y}`).join(" ");
  if (!item.closed) return <polyline {...line} points={points} fill="none" />;
  return (
    <>
      <polygon {...line} points={points} {...solidFill(item.fill)} />
      {item.fill?.hatch && <polygon points={points} fill={hatchOf(item.fill)} />}
    </>
  );
}

function solidFill(fill: Fill | undefined) {
  if (!fill || fill.hatch) return { fill: "none" };
  return { fill: inkColour(fill.ink), fillOpacity: fill.tint ?? 1 };
}

/** Hatches are patterns shared by the whole page, see `HatchPatterns`. */
function hatchOf(fill: Fill): string {
  const hatch = fill.hatch ?? { turn: 45, apart: 2 };
  return `url(#${hatchId(fill.ink, hatch.turn, hatch.apart)})`;
}

function hatchId(ink: Ink, turn: number, apart: number): string {
  return `hatch-${ink}-${String(turn).replace(/\W/g, "_")}-${String(apart).replace(/\W/g, "_")}`;
}

/** The hatch patterns that a sheet's items call for. */
export const HatchPatterns = memo(function HatchPatterns({ items }: { readonly items: readonly Item[] }) {
  const wanted = new Map<string, { ink: Ink; turn: number; apart: number }>();
  for (const item of items) {
    const fill = item.kind === "stroke" || item.kind === "circle" ? item.fill : undefined;
    if (!fill?.hatch) continue;
    const { turn, apart } = fill.hatch;
    wanted.set(hatchId(fill.ink, turn, apart), { ink: fill.ink, turn, apart });
  }
  return (
    <defs>
      {[...wanted].map(([id, { ink, turn, apart }]) => (
        <pattern
          key={id}
          id={id}
          width={apart}
          height={apart}
          patternUnits="userSpaceOnUse"
          patternTransform={`rotate(${-turn})`}
        >
          <line x1="0" y1="0" x2={apart} y2="0" stroke={inkColour(ink)} strokeWidth={PENS.dimension.weight} />
        </pattern>
      ))}
    </defs>
  );
});

function Letters({ item }: { readonly item: Extract<Item, { kind: "lettering" }> }) {
  return (
    <text
      x={item.at.x}
      y={item.at.y}
      fontSize={item.size}
      className={css[item.face]}
      fill={inkColour(item.ink ?? "graphite")}
      textAnchor={item.align ?? "start"}
      transform={item.turn ? `rotate(${-item.turn} ${item.at.x} ${item.at.y})` : undefined}
    >
      {item.text}
    </text>
  );
}

/** SVG path of an arc item: counterclockwise as seen, on axes with y down. */
export function arcPath(arc: {
  readonly centre: Point;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
}): string {
  const at = (degrees: number): Point => ({
    x: arc.centre.x + arc.radius * Math.cos((degrees * Math.PI) / 180),
    y: arc.centre.y - arc.radius * Math.sin((degrees * Math.PI) / 180),
  });
  const sweep = arc.to - arc.from;
  const start = at(arc.from);
  const end = at(arc.to);
  return `M${start.x} ${start.y}A${arc.radius} ${arc.radius} 0 ${Math.abs(sweep) > 180 ? 1 : 0} ${sweep > 0 ? 0 : 1} ${end.x} ${end.y}`;
}
