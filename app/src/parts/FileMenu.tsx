/** What is done with the whole show: opened, saved, read as lines, looked at by night. */
import { useRef, useState } from "react";
import { printProblem } from "@cornerwise/engine";
import { openSheetlet } from "../desk.ts";
import { useSession } from "../store/session.ts";
import { readFile, resetExample, useShow, writeFile, writeTape } from "../store/show.ts";
import type { MadeFile } from "../worker/messages.ts";
import css from "./FileMenu.module.css";
import { Problems } from "./LineField.tsx";
import { Sheetlet } from "./Sheetlet.tsx";

/** Hands a made file to the person. */
export function handOver(file: MadeFile): void {
  const address = URL.createObjectURL(new Blob([file.bytes], { type: file.type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

export function FileMenu() {
  const details = useRef<HTMLDetailsElement>(null);
  const input = useRef<HTMLInputElement>(null);
  const [problems, setProblems] = useState<readonly string[]>([]);
  const which = useShow((show) => show.which);
  const look = useSession((session) => session.look);
  const shut = (work: () => void) => () => {
    if (details.current) details.current.open = false;
    work();
  };
  const pick = () => {
    if (details.current) details.current.open = false;
    input.current?.click();
  };
  const night =
    look === "night" || (look === "as the device" && matchMedia("(prefers-color-scheme: dark)").matches);
  return (
    <>
      <details
        ref={details}
        className={css["menu"]}
        onKeyDown={(event) => {
          if (event.key === "Escape" && details.current) details.current.open = false;
        }}
        onBlur={(event) => {
          if (details.current && !event.currentTarget.contains(event.relatedTarget))
            details.current.open = false;
        }}
      >
        <summary>File</summary>
        <div className={css["slip"]}>
          <button type="button" onClick={pick}>
            Open a file
          </button>
          <button type="button" onClick={shut(() => void writeFile().then(handOver))}>
            Save as a file
          </button>
          <button type="button" onClick={shut(() => void writeTape().then(handOver))}>
            Save as lines
          </button>
          <button type="button" onClick={shut(() => openSheetlet("notes"))}>
            Tape sheet: paste notes
          </button>
          {which === "example" && (
            <button type="button" onClick={shut(() => void resetExample())}>
              The example as it came
            </button>
          )}
          <button type="button" onClick={shut(() => useSession.setState({ look: night ? "day" : "night" }))}>
            {night ? "Day look" : "Night look"}
          </button>
        </div>
      </details>
      <input
        ref={input}
        type="file"
        accept=".json,.txt,application/json,text/plain"
        className="seen-by-readers"
        tabIndex={-1}
        aria-label="Open a file"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file) void readFile(file).then((found) => setProblems(found.map(printProblem)));
        }}
      />
      {problems.length > 0 && (
        <Sheetlet title="Not all of it could be read" onClose={() => setProblems([])}>
          <p>Your show is as it was, with whatever could be read added.</p>
          <Problems problems={problems} />
        </Sheetlet>
      )}
    </>
  );
}
