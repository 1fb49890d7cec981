/** Paper: the one page of plan and cut-outs, the book, and the check bar that puts the next print right. */
import { listed, parseLength, printLength, showOf } from "@cornerwise/engine";
import { type FormEvent, useEffect, useMemo, useState } from "react";
import { useDeskState } from "../desk.ts";
import { Problems } from "../parts/LineField.tsx";
import { Sheetlet } from "../parts/Sheetlet.tsx";
import { inchUnits } from "../sheet/ScaleRule.tsx";
import { useSession } from "../store/session.ts";
import { print, useShow } from "../store/show.ts";
import type { MadeFile, PrintAsk, Printed } from "../worker/messages.ts";
import css from "./PrintSheetlet.module.css";

const BAR = 50.8;
/** A bar further off than this was not measured on this print, as a share. */
const FURTHEST = 0.2;

type Page = Pick<PrintAsk, "what" | "as"> & { readonly words: string };

const PAGES: readonly Page[] = [
  { what: "one page", as: "pdf", words: "Plan and cut-outs, one page" },
  { what: "book", as: "pdf", words: "The book" },
  { what: "fire officer", as: "pdf", words: "The page for the fire officer" },
];

/** For those who go on in programs of their own. */
const OTHER_FILES: readonly Page[] = [
  { what: "one page", as: "svg", words: "The one page as SVG" },
  { what: "drawings", as: "dxf", words: "Drawings at full size, DXF" },
  { what: "drawings", as: "svg", words: "Drawings, SVG" },
  { what: "lists", as: "csv", words: "Lists, CSV" },
  { what: "calendar", as: "ics", words: "The hours, calendar file" },
];

export function PrintSheetlet({ onClose }: { readonly onClose: () => void }) {
  const show = useShow((state) => showOf(state.document));
  const kept = useSession((session) => session.paper);
  const correction = useSession((session) => session.correction);
  const roomIndex = useDeskState((desk) => desk.roomIndex);
  const room = useShow((state) => state.derived?.rooms[roomIndex]?.room.id);
  const paper = kept ?? (inchUnits(show.units) ? "letter" : "a4");
  const [made, setMade] = useState<{ readonly page: Page; readonly printed: Printed } | undefined>(undefined);
  const [busy, setBusy] = useState<string | undefined>(undefined);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const make = (page: Page) => {
    setBusy(page.words);
    setProblem(undefined);
    setMade(undefined);
    const date = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium" }).format(new Date());
    print({
      what: page.what,
      as: page.as,
      paper,
      date,
      created: new Date().toISOString(),
      correction,
      ...(room === undefined ? {} : { room }),
    })
      .then((printed) => setMade({ page, printed }))
      .catch((reason: unknown) => setProblem(reason instanceof Error ? reason.message : String(reason)))
      .finally(() => setBusy(undefined));
  };
  return (
    <Sheetlet title="On paper" onClose={onClose}>
      <label className={css["paper"]}>
        Paper
        <select
          value={paper}
          onChange={(event) => useSession.setState({ paper: event.target.value === "a4" ? "a4" : "letter" })}
        >
          <option value="letter">Letter, 8 1/2 × 11 in</option>
          <option value="a4">A4, 210 × 297 mm</option>
        </select>
      </label>
      <div className={css["pages"]}>
        {PAGES.map((page, index) => (
          <button
            key={page.words}
            type="button"
            className={index === 0 ? "main" : undefined}
            disabled={busy !== undefined}
            onClick={() => make(page)}
          >
            {page.words}
          </button>
        ))}
      </div>
      <details className={css["other"]}>
        <summary>Other files</summary>
        <div className={css["pages"]}>
          {OTHER_FILES.map((page) => (
            <button key={page.words} type="button" disabled={busy !== undefined} onClick={() => make(page)}>
              {page.words}
            </button>
          ))}
        </div>
      </details>
      <p role="status">{busy ? `${busy}: being drawn…` : ""}</p>
      <Problems problems={problem ? [problem] : []} />
      {made && <Made page={made.page} printed={made.printed} />}
      {made?.page.as === "pdf" && <BarQuestion />}
      {(correction.across !== 1 || correction.down !== 1) && (
        <p className="soft">
          The next print is put right by {percent(correction.across)} across and {percent(correction.down)}{" "}
          down.{" "}
          <button
            type="button"
            className="word"
            onClick={() => useSession.setState({ correction: { across: 1, down: 1 } })}
          >
            Forget that
          </button>
        </p>
      )}
    </Sheetlet>
  );
}

function percent(factor: number): string {
  return `${((factor - 1) * 100).toFixed(1)} %`;
}

function Made({ page, printed }: { readonly page: Page; readonly printed: Printed }) {
  return (
    <div className={css["made"]}>
      {printed.sentence && <p>{printed.sentence}</p>}
      {printed.leftOut && printed.leftOut.length > 0 && (
        <p className="ochre">No room on the page for: {printed.leftOut.join(", ")}.</p>
      )}
      {printed.files.map((file) => (
        <FileLinks
          key={file.name}
          file={file}
          words={printed.files.length === 1 ? page.words : file.name}
          prints={page.as === "pdf" || page.as === "svg"}
        />
      ))}
      {page.as === "pdf" && <p className="soft">Print at 100 %, never “fit to page”.</p>}
      {printed.files.length === 0 && <p>There is nothing of that to write yet.</p>}
    </div>
  );
}

function FileLinks({
  file,
  words,
  prints,
}: {
  readonly file: MadeFile;
  readonly words: string;
  /** Whether a browser shows it as a page. */
  readonly prints: boolean;
}) {
  const address = useMemo(() => URL.createObjectURL(new Blob([file.bytes], { type: file.type })), [file]);
  useEffect(() => () => URL.revokeObjectURL(address), [address]);
  return (
    <p className={css["links"]}>
      {prints && (
        <a href={address} target="_blank" rel="noreferrer">
          Open to print
        </a>
      )}
      <a href={address} download={file.name}>
        Download {words.toLowerCase()}
      </a>
    </p>
  );
}

/** Asks what the 2 in bar measures on the print, both ways, and corrects the next print by the answer. */
function BarQuestion() {
  const units = useShow((state) => showOf(state.document).units);
  const [across, setAcross] = useState("");
  const [down, setDown] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [done, setDone] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = [bar(across, "across", inchUnits(units)), bar(down, "down", inchUnits(units))] as const;
    const wrong = read.flatMap((one) => (typeof one === "string" ? [one] : []));
    setProblems(wrong);
    const [a, d] = read;
    if (typeof a === "string" || typeof d === "string") return;
    const { correction } = useSession.getState();
    useSession.setState({
      correction: { across: (correction.across * BAR) / a, down: (correction.down * BAR) / d },
    });
    setDone(true);
  };
  if (done) return <p className="moss">Noted. The next print is put right by that.</p>;
  return (
    <form onSubmit={submit} className={css["bar"]}>
      <p>Printed? What does the 2 in bar measure on the paper?</p>
      <label>
        Across
        <input
          value={across}
          placeholder={printLength(BAR, inchUnits(units) ? "in" : "mm")}
          onChange={(event) => setAcross(event.target.value)}
        />
      </label>
      <label>
        Down
        <input
          value={down}
          placeholder={printLength(BAR, inchUnits(units) ? "in" : "mm")}
          onChange={(event) => setDown(event.target.value)}
        />
      </label>
      <button type="submit">Put the next print right</button>
      <Problems problems={problems} />
    </form>
  );
}

/** The bar's measure in mm, or why it cannot be. An empty answer means it is right. */
function bar(text: string, way: string, inches: boolean): number | string {
  if (!text.trim()) return BAR;
  const parsed = parseLength(text, inches ? "in" : "mm");
  if (!parsed.ok) return `The bar ${way}: ${parsed.reason}`;
  const off = Math.abs(parsed.value / BAR - 1);
  return off > FURTHEST
    ? `The bar ${way}: ${text} is too far from 2 in to be a printer's doing. Measure the bar again.`
    : parsed.value;
}

/** Whether there is anything to print: a room with a shape. */
export function printable(): boolean {
  return listed(useShow.getState().document.rooms).length > 0;
}
