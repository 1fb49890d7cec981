/**
 * The scale rule along the bottom. It is a drawn rule that keeps its truth at any zoom: each step is a round
 * real length, and beside it stands what that is on the model: squares and paper.
 */
import { printLength, type Show, type Units } from "@cornerwise/engine";
import css from "./ScaleRule.module.css";

const INCH_STEPS = [1, 3, 6, 12, 24, 60, 120, 240, 600].map((inches) => inches * 25.4);
const METRIC_STEPS = [10, 50, 100, 250, 500, 1000, 2000, 5000, 10_000];

/** Whether a show speaks inches. */
export function inchUnits(units: Units): boolean {
  return units === "ft-in" || units === "in";
}

/** What a nudge and a push are rounded to: an inch or a centimetre, mm. */
export function fingerStep(units: Units): number {
  return inchUnits(units) ? 25.4 : 10;
}

export function ScaleRule({ show, pxPerRoomMm }: { readonly show: Show; readonly pxPerRoomMm: number }) {
  const steps = inchUnits(show.units) ? INCH_STEPS : METRIC_STEPS;
  const step = steps.find((length) => length * pxPerRoomMm >= 46) ?? steps.at(-1) ?? 1000;
  const count = 5;
  const long = step * count;
  const squares = long / show.gridSquare;
  const model = (long * show.gridPitch) / show.gridSquare;
  const words = `${printLength(long, show.units)} = ${trimmed(squares)} squares = ${printLength(model, inchUnits(show.units) ? "in" : "mm")} on the model`;
  const width = long * pxPerRoomMm;
  return (
    <div className={css["rule"]} role="img" aria-label={`Scale rule: ${words}`}>
      <svg width={width + 2} height="22" aria-hidden="true">
        {Array.from({ length: count }, (_, index) => (
          <rect
            key={index}
            x={1 + index * step * pxPerRoomMm}
            y="8"
            width={step * pxPerRoomMm}
            height="7"
            fill={index % 2 ? "var(--sheet)" : "var(--ink-graphite)"}
            stroke="var(--ink-graphite)"
          />
        ))}
      </svg>
      <span className={css["words"]}>{words}</span>
    </div>
  );
}

function trimmed(value: number): string {
  return String(Number(value.toFixed(2)));
}
