import { openSheetlet } from "../desk.ts";
import css from "./StageView.module.css";

/** The first thing to do, drawn, with one button. */
export function NothingYet() {
  return (
    <div className={css["nothing"]}>
      <svg viewBox="0 0 160 110" width="240" aria-hidden="true">
        <path
          d="M20 20h120v70H20z"
          fill="var(--sheet)"
          stroke="var(--ink-graphite)"
          strokeWidth="4"
          strokeDasharray="10 7"
        />
        <path
          d="M20 20l120 70M140 20L20 90"
          stroke="var(--ink-tape)"
          strokeWidth="1.5"
          strokeDasharray="5 4"
        />
      </svg>
      <p>No room here yet. Four walls are enough to begin.</p>
      <button type="button" className="main" onClick={() => openSheetlet("my-room")}>
        Begin my room
      </button>
      <button type="button" onClick={() => openSheetlet("notes")}>
        Paste notes from the tape
      </button>
    </div>
  );
}
