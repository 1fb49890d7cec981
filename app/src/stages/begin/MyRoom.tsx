/**
 * My room: how much of it is ours, the country once, and then a sketch or a few typed walls. Nothing more is
 * asked before the room is drawn.
 */
import type { Place, Units } from "@cornerwise/engine";
import { type FormEvent, useState } from "react";
import { begin } from "../../act.ts";
import { Problems } from "../../parts/LineField.tsx";
import { Sheetlet } from "../../parts/Sheetlet.tsx";
import { useSession } from "../../store/session.ts";
import { useShow } from "../../store/show.ts";
import css from "./MyRoom.module.css";
import { type Beginning, type Extent, SIDES, sketchedRoom, typedRoom } from "./newRoom.ts";
import { Sketch } from "./Sketch.tsx";

const EXTENTS: readonly { readonly extent: Extent; readonly words: string; readonly d: string }[] = [
  { extent: "whole", words: "Whole room", d: "M8 8h48v32H8z" },
  { extent: "corner", words: "A corner", d: "M8 8h48v32" },
  { extent: "wall", words: "One wall", d: "M8 12h48" },
];

const PLACES: readonly (readonly [Place, string])[] = [
  ["US", "United States"],
  ["GB", "United Kingdom"],
  ["DE", "Germany"],
];

const UNITS: readonly (readonly [Units, string])[] = [
  ["ft-in", "feet and inches"],
  ["in", "inches"],
  ["m", "metres"],
  ["cm", "centimetres"],
  ["mm", "millimetres"],
];

export function MyRoom({ onClose, onBegun }: { readonly onClose: () => void; readonly onBegun: () => void }) {
  const [extent, setExtent] = useState<Extent>("whole");
  const [how, setHow] = useState<"type" | "sketch">("type");
  const [about, setAbout] = useState<Beginning>({ name: "My room", place: "US", units: "ft-in" });
  const [sides, setSides] = useState<{ readonly [name: string]: string }>({});
  const [problems, setProblems] = useState<readonly string[]>([]);
  const asked = useSession((session) => session.countryAsked);
  const begun = useSession((session) => session.countryAsked);
  const started = useShow((show) => (show.which === "mine" ? show.started : begun));
  const settle = (found: readonly string[]) => {
    setProblems(found);
    if (found.length > 0) return;
    useSession.setState({ countryAsked: true });
    onBegun();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void begin(typedRoom(about, extent, sides)).then(settle);
  };
  return (
    <Sheetlet title="My room" onClose={onClose}>
      {started && <p className="ochre">This begins again. Undo brings back what you have now.</p>}
      <div className={css["extents"]} role="group" aria-label="How much of it is yours">
        {EXTENTS.map((choice) => (
          <button
            key={choice.extent}
            type="button"
            aria-pressed={extent === choice.extent}
            onClick={() => setExtent(choice.extent)}
          >
            <svg viewBox="0 0 64 48" width="64" height="48" aria-hidden="true">
              <path d={choice.d} fill="none" stroke="currentColor" strokeWidth="4" />
            </svg>
            {choice.words}
          </button>
        ))}
      </div>
      <div className={css["about"]}>
        <label>
          Name
          <input
            value={about.name}
            maxLength={200}
            onChange={(event) => setAbout({ ...about, name: event.target.value })}
          />
        </label>
        <label>
          {asked ? "Country" : "Country, for the house rules"}
          <select
            value={about.place}
            onChange={(event) => {
              const place = event.target.value as Place;
              setAbout({ ...about, place, units: place === "US" ? "ft-in" : "cm" });
            }}
          >
            {PLACES.map(([place, words]) => (
              <option key={place} value={place}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <label>
          Lengths in
          <select
            value={about.units}
            onChange={(event) => setAbout({ ...about, units: event.target.value as Units })}
          >
            {UNITS.map(([units, words]) => (
              <option key={units} value={units}>
                {words}
              </option>
            ))}
          </select>
        </label>
      </div>
      {extent === "whole" && (
        <div className={css["how"]} role="group" aria-label="How to begin">
          <button type="button" aria-pressed={how === "type"} onClick={() => setHow("type")}>
            Type four walls
          </button>
          <button type="button" aria-pressed={how === "sketch"} onClick={() => setHow("sketch")}>
            Sketch it
          </button>
        </div>
      )}
      {how === "sketch" && extent === "whole" ? (
        <Sketch
          units={about.units}
          onDone={(points) => {
            const { lines, corners } = sketchedRoom(about, points);
            void begin(lines, corners).then(settle);
          }}
        />
      ) : (
        <form onSubmit={submit}>
          <div className={css["walls"]}>
            {SIDES[extent].map((side, index) => (
              <label key={side.name}>
                {side.ask}
                <input
                  required={extent !== "whole" || index < 2}
                  value={sides[side.name] ?? ""}
                  placeholder={
                    about.units === "ft-in" ? `12' 3 1/2"` : about.units === "in" ? "147 1/2" : "3.75 m"
                  }
                  autoComplete="off"
                  onChange={(event) => setSides({ ...sides, [side.name]: event.target.value })}
                />
              </label>
            ))}
          </div>
          <Problems problems={problems} />
          <button type="submit" className="main">
            Draw it
          </button>
        </form>
      )}
      {how === "sketch" && <Problems problems={problems} />}
    </Sheetlet>
  );
}
