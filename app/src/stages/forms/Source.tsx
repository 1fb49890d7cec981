/** What a thing is cut from: a material that is there, or a new one named with its size. */
import { listed, printLength, type Show, type ShowDocument } from "@cornerwise/engine";
import { Choice, Text } from "../../parts/Fields.tsx";
import { inchUnits } from "../../sheet/ScaleRule.tsx";
import { useShow } from "../../store/show.ts";
import type { Form, Source } from "./compose.ts";

/** What is chosen or typed so far; `chosen` is a material's name, `NEW` or `NONE`. */
export interface SourceFields {
  readonly chosen: string;
  readonly name: string;
  readonly width: string;
  readonly length: string;
}

/** Names that no material can have: they begin with a space. */
export const NEW = " new";
export const NONE = " none";

const ASKS: { readonly [F in Form]: readonly [from: string, name: string, width: string, length: string] } = {
  roll: ["From which roll", "Its name", "Roll width", "Roll length"],
  stick: ["Cut from", "Its name", "Stick's face", "Stick's length"],
  sheet: ["Cut from", "Its name", "Sheet, short side", "Sheet, long side"],
};

/** The first material of that form, or a new one where there is none and one is needed. */
export function firstSource(document: ShowDocument, form: Form, needed: boolean): SourceFields {
  const there = named(document, form)[0];
  return { chosen: needed ? (there ?? NEW) : NONE, name: "", width: "", length: "" };
}

/** The fields as they are said; nothing where nothing is to be cut. */
export function sourceOf({ chosen, name, width, length }: SourceFields): Source | undefined {
  if (chosen === NONE) return undefined;
  return chosen === NEW ? { name, bought: { width, length } } : { name: chosen };
}

function named(document: ShowDocument, form: Form): readonly string[] {
  return listed(document.stocks).flatMap((stock) => (stock.form === form ? [stock.name] : []));
}

interface Props {
  readonly form: Form;
  readonly show: Show;
  readonly value: SourceFields;
  readonly onChange: (value: SourceFields) => void;
  /** Whether it can be left open what it is cut from. */
  readonly open?: boolean;
}

export function SourceChoice({ form, show, value, onChange, open = false }: Props) {
  const document = useShow((state) => state.document);
  const [from, name, width, length] = ASKS[form];
  const set = (key: keyof SourceFields) => (said: string) => onChange({ ...value, [key]: said });
  const such = SIZES[form][inchUnits(show.units) ? "inches" : "metric"];
  return (
    <>
      <Choice
        label={from}
        value={value.chosen}
        options={[
          ...named(document, form),
          ...(open ? [[NONE, "not said yet"] as const] : []),
          [NEW, `a new ${form}`] as const,
        ]}
        onChange={set("chosen")}
        wide
      />
      {value.chosen === NEW && (
        <>
          <Text label={name} value={value.name} onChange={set("name")} required wide />
          <Text
            label={width}
            value={value.width}
            onChange={set("width")}
            such={printLength(such[0], show.units)}
            required
          />
          <Text
            label={length}
            value={value.length}
            onChange={set("length")}
            such={printLength(such[1], show.units)}
            required
          />
        </>
      )}
    </>
  );
}

/** Common sizes, to show how one is written, mm. */
const SIZES: {
  readonly [F in Form]: { readonly [M in "inches" | "metric"]: readonly [width: number, length: number] };
} = {
  roll: { inches: [36 * 25.4, 100 * 304.8], metric: [900, 30_000] },
  stick: { inches: [3.5 * 25.4, 8 * 304.8], metric: [90, 2400] },
  sheet: { inches: [40 * 25.4, 60 * 25.4], metric: [1000, 1500] },
};
