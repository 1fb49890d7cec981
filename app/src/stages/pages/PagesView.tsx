/**
 * A later stage as the pages it prints: one sheet on the table, the others a word away. What is touched on a
 * page is a record, and its slip says it as a line that can be said anew. Screen and paper show the same items.
 */
import { type Sheet, type ShowDocument, showOf, type TableName, type TrueRoom } from "@cornerwise/engine";
import { useEffect, useState } from "react";
import { entering } from "../../act.ts";
import { openSheetlet, touch, useDeskState } from "../../desk.ts";
import { Problems } from "../../parts/LineField.tsx";
import { SheetTable } from "../../sheet/SheetTable.tsx";
import { type PaperArea, useDesk } from "../../sheet/view.ts";
import { SnagList } from "../../snags/SnagList.tsx";
import { pagesOf, useShow } from "../../store/show.ts";
import type { PagedStage } from "../../worker/messages.ts";
import { grown, wholeSheet } from "../areas.ts";
import css from "../StageView.module.css";
import { NothingYet } from "../NothingYet.tsx";
import { Ripple } from "../Ripple.tsx";
import { RoomChoice } from "../RoomChoice.tsx";
import own from "./PagesView.module.css";
import { PageWords } from "./PageWords.tsx";
import { areaOfItem, joined, nameOf, recordAt, type RecordOnPage, recordsOn } from "./records.ts";
import { RecordOnTable } from "./RecordSlip.tsx";
import { StageSnag } from "./StageSnag.tsx";

interface Pages {
  readonly sheets: readonly Sheet[];
  /** Which derivation they were drawn from. */
  readonly revision: number;
}

/** The pages of a stage for a room, drawn anew whenever the show has been derived anew. */
export function usePages(
  stage: PagedStage,
  room: string | undefined,
): { readonly pages: Pages | undefined; readonly problem: string | undefined } {
  const revision = useShow((show) => show.derivedRevision);
  const [pages, setPages] = useState<Pages | undefined>(undefined);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  useEffect(() => {
    if (room === undefined) return undefined;
    let wanted = true;
    pagesOf(stage, room).then(
      (sheets) => {
        if (!wanted) return;
        setPages({ sheets, revision });
        setProblem(undefined);
      },
      (reason: unknown) => {
        if (wanted) setProblem(reason instanceof Error ? reason.message : String(reason));
      },
    );
    return () => {
      wanted = false;
    };
  }, [stage, room, revision]);
  return { pages, problem };
}

export function PagesView({
  stage,
  onModel,
}: {
  readonly stage: PagedStage;
  /** Back to the model in three dimensions, where there is one. */
  readonly onModel?: () => void;
}) {
  const derived = useShow((show) => show.derived);
  const started = useShow((show) => show.started);
  const ready = useShow((show) => show.ready);
  const index = useDeskState((desk) => desk.roomIndex);
  const trueRoom = derived?.rooms[index] ?? derived?.rooms[0];
  const room = trueRoom?.room;
  const { pages, problem } = usePages(stage, room?.id);
  const [page, setPage] = useState<string | undefined>(undefined);
  if (ready && !started) return <NothingYet />;
  if (problem) return <Problems problems={[problem]} />;
  if (!derived || !trueRoom || !room || !pages) {
    return derived && ready && started && !room ? (
      <NothingYet />
    ) : (
      <p className={css["wait"]}>Laying out the pages…</p>
    );
  }
  const sheet = pages.sheets.find((one) => one.id === page) ?? pages.sheets[0];
  if (!sheet)
    return <p className={css["wait"]}>This stage waits for a room that closes: measure its walls first.</p>;
  return (
    <div className={css["stage"]} data-pages={pages.revision}>
      <PageOnTable
        key={sheet.id}
        stage={stage}
        room={trueRoom}
        sheet={sheet}
        onBare={() => touch(undefined)}
      />
      <PagesFoot sheets={pages.sheets} chosen={sheet.id} onChoose={setPage} onModel={onModel} />
    </div>
  );
}

function PageOnTable({
  stage,
  room: trueRoom,
  sheet,
  onBare,
}: {
  readonly stage: PagedStage;
  readonly room: TrueRoom;
  readonly sheet: Sheet;
  readonly onBare: () => void;
}) {
  const room = trueRoom.room.id;
  const document = useShow((show) => show.document);
  const snags = useShow((show) => show.derived?.snags) ?? [];
  const touched = useDeskState((desk) => desk.touched);
  const records = recordsOn(sheet, document);
  const chosen =
    touched?.kind === "record"
      ? records.find((one) => one.id === touched.id && one.table === touched.table)
      : undefined;
  const enter = entering(room);
  return (
    <SheetTable
      sheet={sheet}
      name={sheet.title}
      focus={{ area: focusOf(sheet), key: sheet.id }}
      overlay={chosen && <ChosenBox area={chosen.area} />}
      onBarePaper={onBare}
      onPaper={(paper) => {
        const found = recordAt(sheet, records, paper);
        touch(found && { kind: "record", table: found.table, id: found.id });
      }}
      slips={
        <>
          <SnagList snags={snags} room={room} names={document.rooms} quiet={false} />
          {touched?.kind === "snag" && (
            <StageSnag snag={snags[touched.index]} units={showOf(document).units} />
          )}
          <RecordOnTable room={room} snags={snags} />
          {touched === undefined && (
            <PageWords
              stage={stage}
              room={trueRoom}
              records={sayable(stage, records, document)}
              enter={enter}
            />
          )}
          <Ripple />
        </>
      }
    />
  );
}

/** What to bring under the eye: of a drawing to scale what is drawn without its letters, of a list the whole page. */
function focusOf(sheet: Sheet): PaperArea {
  const drawn =
    sheet.scale === undefined ? [] : sheet.items.filter((item) => item.kind !== "lettering").map(areaOfItem);
  const above = drawn.filter((area) => area.bottom < sheet.height - FOOT);
  return above.length === 0 ? wholeSheet(sheet) : grown(above.reduce(joined));
}

/** Paper mm at the bottom of a page that its check bars and stamp take. */
const FOOT = 27;

/** A frame of tape round what is touched, its line steady on the screen. */
function ChosenBox({ area }: { readonly area: ReturnType<typeof wholeSheet> }) {
  const { view } = useDesk();
  const off = 4 / view.k;
  return (
    <rect
      className={own["chosen"]}
      x={area.left - off}
      y={area.top - off}
      width={area.right - area.left + 2 * off}
      height={area.bottom - area.top + 2 * off}
      strokeWidth={2 / view.k}
    />
  );
}

/** Records a stage rests on, whether this page shows them or not, and before all others. */
const OF_STAGE: { readonly [S in PagedStage]: readonly TableName[] } = {
  make: ["wallCoverings", "trims", "coverings", "parts", "stocks", "rates"],
  model: ["shows"],
  install: ["shifts", "chores", "rates", "questions"],
};

/** What can be touched by its name: what the stage rests on, then what else the page shows. */
function sayable(
  stage: PagedStage,
  records: ReturnType<typeof recordsOn>,
  document: ShowDocument,
): readonly Pick<RecordOnPage, "table" | "id" | "name">[] {
  const first = OF_STAGE[stage].flatMap((table) =>
    Object.keys(document[table]).map((id) => ({ table, id, name: nameOf(document, table, id) })),
  );
  const known = new Set(first.map(({ table, id }) => `${table} ${id}`));
  return [...first, ...records.filter(({ table, id }) => !known.has(`${table} ${id}`))];
}

interface FootProps {
  readonly sheets: readonly Sheet[];
  readonly chosen: string;
  /** By the sheet's id. */
  readonly onChoose: (id: string) => void;
  readonly onModel: (() => void) | undefined;
}

/** The pages by name, those of one title together; and the rooms where there are several. */
function PagesFoot({ sheets, chosen, onChoose, onModel }: FootProps) {
  const groups = pageGroups(sheets);
  const here = groups.find((group) => group.ids.includes(chosen));
  const choose = (id: string | undefined) => {
    if (id === undefined) return;
    touch(undefined);
    onChoose(id);
  };
  return (
    <footer className={css["foot"]}>
      <nav className={`${css["looks"]} ${own["pages"]}`} aria-label="Pages">
        <RoomChoice />
        {onModel && (
          <button type="button" className="word" onClick={onModel}>
            The model
          </button>
        )}
        {groups.map((group) => (
          <button
            key={group.ids[0]}
            type="button"
            className="word"
            aria-pressed={group === here}
            onClick={() => choose(group.ids[0])}
          >
            {sentenceCase(group.title)}
          </button>
        ))}
        <button type="button" className="word" onClick={() => openSheetlet("print")}>
          print
        </button>
      </nav>
      {here && here.ids.length > 1 && <Pager ids={here.ids} chosen={chosen} onChoose={choose} />}
    </footer>
  );
}

/** Page by page through those of one title. */
function Pager({
  ids,
  chosen,
  onChoose,
}: {
  readonly ids: readonly string[];
  readonly chosen: string;
  readonly onChoose: (id: string | undefined) => void;
}) {
  const at = ids.indexOf(chosen);
  return (
    <p className={own["pager"]}>
      <button type="button" className="word" disabled={at === 0} onClick={() => onChoose(ids[at - 1])}>
        before
      </button>
      <span>
        {at + 1} of {ids.length}
      </span>
      <button
        type="button"
        className="word"
        disabled={at === ids.length - 1}
        onClick={() => onChoose(ids[at + 1])}
      >
        next
      </button>
    </p>
  );
}

/** A title as a word of its own: "Unfolded". */
function sentenceCase(title: string): string {
  return title.charAt(0).toUpperCase() + title.slice(1);
}

/** The pages of one title together, in their order; titles without the room's name before the colon. */
export function pageGroups(
  sheets: readonly Pick<Sheet, "id" | "title">[],
): readonly { readonly title: string; readonly ids: readonly string[] }[] {
  const groups = new Map<string, string[]>();
  for (const { id, title } of sheets) {
    const plain = title.replace(/^.*: /u, "").replace(/ \(continued\)$/u, "");
    groups.set(plain, [...(groups.get(plain) ?? []), id]);
  }
  return [...groups].map(([title, ids]) => ({ title, ids }));
}
