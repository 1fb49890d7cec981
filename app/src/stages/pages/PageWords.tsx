/**
 * What can be said on a page, folded: the commonest things as forms, a line of one's own, and everything the page
 * rests on by name. Where nothing of the stage is said yet it lies open and says what to do first.
 */
import { type ShowDocument, showOf, type TrueRoom } from "@cornerwise/engine";
import { type ComponentType, useRef, useState } from "react";
import type { Enter } from "../../act.ts";
import { touch } from "../../desk.ts";
import { LineField } from "../../parts/LineField.tsx";
import { inchUnits } from "../../sheet/ScaleRule.tsx";
import { useShow } from "../../store/show.ts";
import type { PagedStage } from "../../worker/messages.ts";
import { samples } from "../forms/compose.ts";
import { CoverWall } from "../forms/CoverWall.tsx";
import { LayFloor } from "../forms/LayFloor.tsx";
import { RunTrim } from "../forms/RunTrim.tsx";
import { SayHours } from "../forms/SayHours.tsx";
import own from "./PagesView.module.css";
import type { RecordOnPage } from "./records.ts";

/** What is said where nothing of a stage is there yet. */
const FIRST: { readonly [S in PagedStage]: string } = {
  make: "Nothing is made yet. Cover a wall, and its strips, what to buy and the hours are worked out.",
  model: "",
  install: "When does the venue let you in? Say the hours, and the work is fitted into them.",
};

interface FormProps {
  readonly room: TrueRoom;
  readonly enter: Enter;
  readonly onDone: () => void;
}

type FormOf = readonly [words: string, Form: ComponentType<FormProps>];

const FORMS: { readonly [S in PagedStage]: readonly FormOf[] } = {
  make: [
    ["Cover a wall", CoverAWall],
    ["Run trim", RunTrim],
    ["Lay a floor covering", LayFloor],
  ],
  model: [],
  install: [["Say the hours", SayHours]],
};

interface Props {
  readonly stage: PagedStage;
  readonly room: TrueRoom;
  readonly records: readonly Pick<RecordOnPage, "table" | "id" | "name">[];
  readonly enter: Enter;
}

export function PageWords({ stage, room, records, enter }: Props) {
  const inches = useShow((show) => inchUnits(showOf(show.document).units));
  const bare = useShow((show) => isBare(stage, show.document));
  const [saying, setSaying] = useState<FormOf | undefined>(undefined);
  const [open, setOpen] = useState(bare);
  const Form = saying?.[1];
  const slip = useRef<HTMLDetailsElement>(null);
  const onDone = () => {
    setSaying(undefined);
    slip.current?.querySelector("summary")?.focus();
  };
  return (
    <details
      ref={slip}
      className={own["words"]}
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{saying ? saying[0] : "Say or change"}</summary>
      {Form ? (
        <div className={own["form"]}>
          <Form room={room} enter={enter} onDone={onDone} />
        </div>
      ) : (
        <>
          {bare && FIRST[stage] && <p className={own["first"]}>{FIRST[stage]}</p>}
          {FORMS[stage].length > 0 && (
            <div className={own["forms"]}>
              {FORMS[stage].map((one, at) => (
                <button
                  key={one[0]}
                  type="button"
                  className={bare && at === 0 ? "main" : undefined}
                  onClick={() => setSaying(one)}
                >
                  {one[0]}
                </button>
              ))}
            </div>
          )}
          <LineField label="A line of the tape sheet" samples={samples(stage, inches)} onTake={enter} />
          <ul>
            {records.map((one) => (
              <li key={`${one.table} ${one.id}`}>
                <button
                  type="button"
                  className="word"
                  onClick={() => touch({ kind: "record", table: one.table, id: one.id })}
                >
                  {one.name}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </details>
  );
}

function CoverAWall({ room, ...rest }: FormProps) {
  return <CoverWall walls={wallsToCover(room)} {...rest} />;
}

/** Whether nothing of a stage has been said. */
function isBare(stage: PagedStage, document: ShowDocument): boolean {
  const { wallCoverings, trims, coverings, shifts } = document;
  if (stage === "make")
    return [wallCoverings, trims, coverings].every((table) => Object.keys(table).length === 0);
  return stage === "install" && Object.keys(shifts).length === 0;
}

/** Walls that stand and may be covered, by name; all that stand where the venue refuses every one. */
function wallsToCover(room: TrueRoom): readonly string[] {
  const stand = room.walls.filter((wall) => !wall.open && !wall.glass);
  const may = stand.filter((wall) => !wall.refused);
  return (may.length > 0 ? may : stand).map((wall) => wall.name);
}
