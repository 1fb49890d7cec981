/** What the last change touched, in a few words that fold out to the list: quiet, and put away with a press. */
import { RIPPLE_KINDS, type RippleKind, type Touch } from "@cornerwise/engine";
import { putRippleAway, useShow } from "../store/show.ts";
import css from "./Ripple.module.css";

const ONE_AND_MORE: { readonly [K in RippleKind]: readonly [string, string] } = {
  wall: ["wall", "walls"],
  strip: ["strip", "strips"],
  trim: ["run of trim", "runs of trim"],
  cut: ["cut length", "cut lengths"],
  panel: ["panel", "panels"],
  bought: ["line to buy", "lines to buy"],
  card: ["card", "cards"],
  task: ["task", "tasks"],
  mark: ["mark", "marks"],
  snag: ["snag", "snags"],
};

const WHAT = { new: "new", changed: "changed", gone: "gone" } as const;

export function Ripple() {
  const rippled = useShow((show) => show.rippled);
  if (rippled === undefined || rippled.count === 0) return null;
  return (
    <details className={css["ripple"]} key={rippled.revision}>
      <summary>Touched: {words(rippled.touches, rippled.count)}</summary>
      <ul>
        {rippled.touches.map((touch) => (
          <li key={`${touch.kind} ${touch.id}`}>
            <b>{touch.name}</b> <span className="soft">{WHAT[touch.what]}</span>
            {touch.what === "changed" && (
              <span className={css["figures"]}>
                <s>{touch.before}</s> {touch.after}
              </span>
            )}
          </li>
        ))}
        {rippled.count > rippled.touches.length && <li>and {rippled.count - rippled.touches.length} more</li>}
      </ul>
      <button type="button" className="word" onClick={putRippleAway}>
        Put away
      </button>
    </details>
  );
}

/** "3 strips, 1 cut length, 2 snags". */
function words(touches: readonly Touch[], count: number): string {
  if (count > touches.length) return `${count} things`;
  return RIPPLE_KINDS.flatMap((kind) => {
    const many = touches.filter((touch) => touch.kind === kind).length;
    return many === 0 ? [] : [`${many} ${ONE_AND_MORE[kind][many === 1 ? 0 : 1]}`];
  }).join(", ");
}
