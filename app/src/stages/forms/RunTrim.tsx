/** Base, rail or crown round the room. */
import { showOf } from "@cornerwise/engine";
import { useState } from "react";
import type { Enter } from "../../act.ts";
import { Choice, Text } from "../../parts/Fields.tsx";
import { LinesForm } from "../../parts/LinesForm.tsx";
import { inchUnits } from "../../sheet/ScaleRule.tsx";
import { useShow } from "../../store/show.ts";
import { trimLines, TRIMS } from "./compose.ts";
import { firstSource, SourceChoice, sourceOf } from "./Source.tsx";

type Kind = (typeof TRIMS)[number];

const WORDS: { readonly [K in Kind]: string } = {
  base: "base, along the floor",
  rail: "rail, part way up",
  crown: "crown, under the ceiling",
};

export function RunTrim({ enter, onDone }: { readonly enter: Enter; readonly onDone: () => void }) {
  const document = useShow((state) => state.document);
  const show = showOf(document);
  const inches = inchUnits(show.units);
  const [kind, setKind] = useState<Kind>("base");
  const [stick, setStick] = useState(() => firstSource(document, "stick", false));
  const [said, setSaid] = useState({ height: "", out: "", up: "", spring: "" });
  const set = (key: keyof typeof said) => (value: string) => setSaid({ ...said, [key]: value });
  return (
    <LinesForm
      take={`Run the ${kind}`}
      enter={enter}
      onDone={onDone}
      lines={() => {
        const from = sourceOf(stick);
        return trimLines({ kind, ...said, ...(from ? { stick: from } : {}) });
      }}
    >
      <Choice
        label="Which"
        value={kind}
        options={TRIMS.map((one) => [one, WORDS[one]] as const)}
        onChange={(value) => setKind(value as Kind)}
        wide
      />
      <Text
        label="Height"
        value={said.height}
        onChange={set("height")}
        such={inches ? '7 1/4"' : "95 mm"}
        required
      />
      <Text
        label="Stands out"
        value={said.out}
        onChange={set("out")}
        such={inches ? '3/4"' : "15 mm"}
        required
      />
      {kind === "rail" && (
        <Text
          label="Underside above floor"
          value={said.up}
          onChange={set("up")}
          such={inches ? "3' 6\"" : "1 m"}
          required
        />
      )}
      {kind === "crown" && (
        <Text label="Spring, degrees" value={said.spring} onChange={set("spring")} such="38" />
      )}
      <SourceChoice form="stick" show={show} value={stick} onChange={setStick} open />
    </LinesForm>
  );
}
