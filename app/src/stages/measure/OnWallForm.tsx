/** A door, a window or a thing of the venue's on a wall: a few fields that make one line of the tape sheet. */
import { FIXTURE_KINDS, type Show, type TrueWall } from "@cornerwise/engine";
import { type FormEvent, useEffect, useRef, useState } from "react";
import type { Enter } from "../../act.ts";
import { focusFirst } from "../../parts/focus.ts";
import { Choice, FieldGrid, Text } from "../../parts/Fields.tsx";
import { Problems } from "../../parts/LineField.tsx";
import css from "./Slips.module.css";

export type OnWall = "door" | "window" | "fixture";

type Fields = { readonly [name: string]: string };

const ASKS: { readonly [W in OnWall]: readonly (readonly [name: string, label: string])[] } = {
  door: [
    ["leaf", "Leaf width"],
    ["high", "Height"],
    ["clear", "Clear, if known"],
    ["casing", "Casing, if any"],
  ],
  window: [
    ["wide", "Width"],
    ["high", "Height"],
    ["sill", "Sill above floor"],
  ],
  fixture: [
    ["up", "Up from floor"],
    ["wide", "Width, if it has one"],
    ["high", "Height, if it has one"],
    ["out", "Stands out, if it does"],
  ],
};

/** What nothing can stand in for: the form asks for it before it is sent. */
const NEEDED = new Set(["Leaf width", "Height", "Width", "Sill above floor", "Up from floor"]);

interface Props {
  readonly what: OnWall;
  readonly wall: TrueWall;
  readonly show: Show;
  readonly enter: Enter;
  readonly onDone: () => void;
}

export function OnWallForm({ what, wall, enter, onDone }: Props) {
  const [first = "", second = ""] = wall.name.split("-");
  const [fields, setFields] = useState<Fields>({ datum: first, hinge: first, opens: "in", kind: "outlet" });
  const [problems, setProblems] = useState<readonly string[]>([]);
  const set = (name: string) => (value: string) => setFields((old) => ({ ...old, [name]: value }));
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void enter(lineOf(what, wall, fields)).then((found) => (found.length ? setProblems(found) : onDone()));
  };
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusFirst(form.current), []);
  return (
    <form ref={form} onSubmit={submit}>
      <FieldGrid>
        {what === "fixture" && (
          <Choice
            label="What is it"
            value={fields["kind"]}
            options={FIXTURE_KINDS}
            onChange={set("kind")}
            wide
          />
        )}
        <Text required label="From corner to edge" value={fields["at"]} onChange={set("at")} first />
        <Choice
          label="Measured from"
          value={fields["datum"]}
          options={[first, second]}
          onChange={set("datum")}
        />
        {ASKS[what].map(([name, label]) => (
          <Text
            key={name}
            required={NEEDED.has(label)}
            label={label}
            value={fields[name]}
            onChange={set(name)}
          />
        ))}
        {what === "door" && (
          <>
            <Choice
              label="Hinge on the side of"
              value={fields["hinge"]}
              options={[first, second]}
              onChange={set("hinge")}
            />
            <Choice label="Opens" value={fields["opens"]} options={["in", "out"]} onChange={set("opens")} />
          </>
        )}
      </FieldGrid>
      <Problems problems={problems} />
      <div className={css["choices"]}>
        <button type="submit" className="main">
          Put it on {wall.name}
        </button>
        <button type="button" onClick={onDone}>
          Back
        </button>
      </div>
    </form>
  );
}

function lineOf(what: OnWall, wall: TrueWall, fields: Fields): string {
  const say = (name: string, words: (value: string) => string) => {
    const value = fields[name]?.trim();
    return value ? [words(value)] : [];
  };
  const kind = what === "fixture" ? (fields["kind"] ?? "outlet") : what;
  const start = `${kind} on ${wall.name} at ${fields["at"]?.trim() ?? ""} from ${fields["datum"] ?? ""}`;
  const details = {
    door: [
      ...say("leaf", (value) => `leaf ${value}`),
      ...say("clear", (value) => `clear ${value}`),
      ...say("casing", (value) => `casing ${value}`),
      ...say("high", (value) => `${value} high`),
      `hinge ${fields["hinge"] ?? ""}`,
      `opens ${fields["opens"] ?? "in"}`,
    ],
    window: [
      ...say("wide", (value) => `${value} wide`),
      ...say("high", (value) => `${value} high`),
      ...say("sill", (value) => `sill ${value}`),
    ],
    fixture: [
      ...say("up", (value) => `up ${value}`),
      ...say("wide", (value) => `${value} wide`),
      ...say("high", (value) => `${value} high`),
      ...say("out", (value) => `out ${value}`),
    ],
  }[what];
  return [start, ...details].join(", ");
}
