/** The tape sheet: notes pasted from a phone are read line by line; what cannot be read says why. */
import { useState } from "react";
import { enterNotes } from "../../act.ts";
import { Problems } from "../../parts/LineField.tsx";
import { Sheetlet } from "../../parts/Sheetlet.tsx";
import { writeTape } from "../../store/show.ts";
import css from "./Notes.module.css";

export function Notes({ onClose }: { readonly onClose: () => void }) {
  const [notes, setNotes] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [read, setRead] = useState<number | undefined>(undefined);
  return (
    <Sheetlet title="Tape sheet" onClose={onClose}>
      <label htmlFor="notes" className="soft">
        One thing a line, as you would say it: A to B 12' 3 1/2", height A 9' 8", door on A-B at 3' from A…
      </label>
      <textarea
        id="notes"
        className={css["notes"]}
        value={notes}
        rows={14}
        spellCheck={false}
        onChange={(event) => {
          setNotes(event.target.value);
          setRead(undefined);
        }}
      />
      <Problems problems={problems} />
      <p role="status" className="moss">
        {read === undefined
          ? ""
          : `${problems.length === 0 ? "All of it is read." : "The rest is read."} ${read === 1 ? "1 line." : `${read} lines.`}`}
      </p>
      <div className={css["acts"]}>
        <button
          type="button"
          className="main"
          disabled={!notes.trim()}
          onClick={() =>
            void enterNotes(notes).then((found) => {
              setProblems(found.problems);
              setRead(found.read);
            })
          }
        >
          Read these lines
        </button>
        <button
          type="button"
          onClick={() => void writeTape().then((file) => setNotes(new TextDecoder().decode(file.bytes)))}
        >
          Show the room as lines
        </button>
      </div>
    </Sheetlet>
  );
}
