/** The slip of a record: what it says as lines of the tape sheet, to be said anew, and the snags that speak of it. */
import { removal, type Snag, type TableName } from "@cornerwise/engine";
import { type FormEvent, useEffect, useId, useState } from "react";
import { act, type Enter, entering } from "../../act.ts";
import { MountPlace } from "../arrange/MountSlip.tsx";
import { touch, useDeskState } from "../../desk.ts";
import { Problems } from "../../parts/LineField.tsx";
import { LevelMark } from "../../snags/SnagList.tsx";
import { recordLines, useShow } from "../../store/show.ts";
import { BesideSlip } from "./BesideSlip.tsx";
import { nameOf } from "./records.ts";
import css from "./PagesView.module.css";

interface Props {
  readonly table: TableName;
  readonly id: string;
  readonly snags: readonly Snag[];
  readonly enter: Enter;
  readonly onTakeAway: () => void;
}

function RecordSlip({ table, id, snags, enter, onTakeAway }: Props) {
  const name = useShow((show) => nameOf(show.document, table, id));
  const record = useShow((show) => show.document[table][id]);
  const about = snags.filter((snag) => snag.things.includes(id));
  return (
    <BesideSlip title={name} onClose={() => touch(undefined)}>
      {record === undefined ? (
        <p>This is gone.</p>
      ) : (
        <>
          {table === "mounts" && <MountPlace id={id} />}
          <SayAnew key={JSON.stringify(record)} table={table} id={id} enter={enter} />
          {about.slice(0, 6).map((snag, index) => (
            <p key={index} className={css["about"]}>
              <LevelMark level={snag.level} /> {snag.sentence}
            </p>
          ))}
          <button
            type="button"
            className="word"
            aria-label={table === "mounts" ? `Put ${name} back` : `Take ${name} away`}
            onClick={onTakeAway}
          >
            {table === "mounts" ? "Put back" : "Take away"}
          </button>
        </>
      )}
    </BesideSlip>
  );
}

/** The record's own lines in a field: what stands there when it is taken is what the record says. */
function SayAnew({ table, id, enter }: Pick<Props, "table" | "id" | "enter">) {
  const [text, setText] = useState<string | undefined>(undefined);
  const [said, setSaid] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const field = useId();
  useEffect(() => {
    let wanted = true;
    recordLines(table, id).then(
      (lines) => {
        if (!wanted) return;
        setText(lines);
        setSaid(lines);
      },
      (reason: unknown) => {
        if (wanted) setProblems([reason instanceof Error ? reason.message : String(reason)]);
      },
    );
    return () => {
      wanted = false;
    };
  }, [table, id]);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (text !== undefined && text.trim() !== "") void enter(text).then(setProblems);
  };
  return (
    <form onSubmit={submit} className={css["anew"]}>
      <label htmlFor={field}>As a line of the tape sheet</label>
      <textarea
        id={field}
        value={text ?? ""}
        rows={Math.min(8, Math.max(3, Math.ceil((text ?? "").length / 34)))}
        spellCheck={false}
        autoCapitalize="off"
        aria-invalid={problems.length > 0}
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" disabled={text === undefined || text === said}>
        Say it so
      </button>
      <Problems problems={problems} />
    </form>
  );
}

/** The slip of whichever record is touched, with what can be done to it; nothing while none is. */
export function RecordOnTable({ room, snags }: { readonly room: string; readonly snags: readonly Snag[] }) {
  const touched = useDeskState((desk) => desk.touched);
  if (touched?.kind !== "record") return null;
  const { table, id } = touched;
  return (
    <RecordSlip
      key={`${table} ${id}`}
      table={table}
      id={id}
      snags={snags}
      enter={entering(room, { table, id })}
      onTakeAway={() => {
        act({ label: "Take away", edits: removal(useShow.getState().document, table, id) });
        touch(undefined);
      }}
    />
  );
}
