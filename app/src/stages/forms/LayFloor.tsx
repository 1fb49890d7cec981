/** A floor covering: its size, where its middle lies, and the sheets it is cut from. */
import { printLength, showOf, type TrueRoom } from "@cornerwise/engine";
import { useState } from "react";
import type { Enter } from "../../act.ts";
import { Text } from "../../parts/Fields.tsx";
import css from "../../parts/Fields.module.css";
import { LinesForm } from "../../parts/LinesForm.tsx";
import { fingerStep, inchUnits } from "../../sheet/ScaleRule.tsx";
import { useShow } from "../../store/show.ts";
import { middleOf } from "../areas.ts";
import { floorLines } from "./compose.ts";
import { firstSource, SourceChoice, sourceOf } from "./Source.tsx";

interface Props {
  readonly room: TrueRoom;
  readonly enter: Enter;
  readonly onDone: () => void;
}

export function LayFloor({ room, enter, onDone }: Props) {
  const document = useShow((state) => state.document);
  const show = showOf(document);
  const [sheet, setSheet] = useState(() => firstSource(document, "sheet", false));
  const [walkable, setWalkable] = useState(false);
  const [said, setSaid] = useState(() => {
    const middle = middleOf(room, fingerStep(show.units));
    const into = room.room.turn === "clockwise" ? -middle.y : middle.y;
    return {
      name: "Floor",
      width: "",
      depth: "",
      thick: "",
      border: "",
      panelWidth: "",
      panelDepth: "",
      along: printLength(middle.x, show.units),
      into: printLength(into, show.units),
    };
  });
  const field = (key: keyof typeof said, label: string, such: string, required = false) => (
    <Text
      label={label}
      value={said[key]}
      onChange={(value) => setSaid({ ...said, [key]: value })}
      such={such}
      required={required}
    />
  );
  const inches = inchUnits(show.units);
  const first = room.corners[0]?.name ?? "the first corner";
  return (
    <LinesForm
      take="Lay it"
      enter={enter}
      onDone={onDone}
      lines={() => {
        const from = sourceOf(sheet);
        const { panelWidth, panelDepth, ...rest } = said;
        return floorLines({
          ...rest,
          panel: { width: panelWidth, depth: panelDepth },
          ...(from ? { sheet: from } : {}),
          walkable,
        });
      }}
    >
      {field("name", "Name", "", true)}
      {field("thick", "Thickness", inches ? '3/16"' : "5 mm", true)}
      {field("width", "Width", inches ? "8' 0\"" : "2.4 m", true)}
      {field("depth", "Depth", inches ? "6' 0\"" : "1.8 m", true)}
      {field("along", `Its middle along from ${first}`, "", true)}
      {field("into", "Its middle into the room", "", true)}
      {field("border", "Border, if any", inches ? '6"' : "80 mm")}
      <SourceChoice form="sheet" show={show} value={sheet} onChange={setSheet} open />
      {field("panelWidth", "Largest panel, width", inches ? '51"' : "600 mm")}
      {field("panelDepth", "Largest panel, depth", inches ? '34"' : "900 mm")}
      <label className={`${css["wide"]} ${css["check"]}`}>
        <input type="checkbox" checked={walkable} onChange={(event) => setWalkable(event.target.checked)} />
        Visitors walk on it
      </label>
    </LinesForm>
  );
}
