/** Strips on a wall, from a roll: the commonest thing that is made. */
import { showOf } from "@cornerwise/engine";
import { useState } from "react";
import type { Enter } from "../../act.ts";
import { Choice, Text } from "../../parts/Fields.tsx";
import { LinesForm } from "../../parts/LinesForm.tsx";
import { inchUnits } from "../../sheet/ScaleRule.tsx";
import { useShow } from "../../store/show.ts";
import { coverLines, HELD } from "./compose.ts";
import { firstSource, SourceChoice, sourceOf } from "./Source.tsx";

interface Props {
  /** The walls that can be covered, by name; the first is offered. */
  readonly walls: readonly string[];
  readonly enter: Enter;
  readonly onDone: () => void;
}

type Held = keyof typeof HELD;

export function CoverWall({ walls, enter, onDone }: Props) {
  const document = useShow((state) => state.document);
  const show = showOf(document);
  const [wall, setWall] = useState(walls[0] ?? "");
  const [roll, setRoll] = useState(() => firstSource(document, "roll", true));
  const [held, setHeld] = useState<Held>("pasted");
  const [more, setMore] = useState({ lap: "", to: "", dries: "" });
  const set = (key: keyof typeof more) => (said: string) => setMore({ ...more, [key]: said });
  const inches = inchUnits(show.units);
  return (
    <LinesForm
      take={`Cover ${wall}`}
      enter={enter}
      onDone={onDone}
      lines={() => {
        const { lap, to, dries } = more;
        return coverLines({
          wall,
          roll: sourceOf(roll) ?? { name: "" },
          held,
          lap,
          to,
          ...(held === "pasted" ? { dries } : {}),
        });
      }}
    >
      {walls.length > 1 && <Choice label="Which wall" value={wall} options={walls} onChange={setWall} wide />}
      <SourceChoice form="roll" show={show} value={roll} onChange={setRoll} />
      <Choice
        label="Held how"
        value={held}
        options={Object.entries(HELD)}
        onChange={(said) => setHeld(said as Held)}
        wide
      />
      <Text label="Lap, if any" value={more.lap} onChange={set("lap")} such={inches ? '1/2"' : "1 cm"} />
      {held === "pasted" && (
        <Text label="Dries for, if known" value={more.dries} onChange={set("dries")} such="12 h" />
      )}
      <Text label="How high, if not to the ceiling" value={more.to} onChange={set("to")} wide />
    </LinesForm>
  );
}
