/** The house rules: which country's figures judge, in which units lengths are said, what a square stands for. */
import { type Place, put, type Show, showOf, type Units } from "@cornerwise/engine";
import { act } from "../../act.ts";
import { Sheetlet } from "../../parts/Sheetlet.tsx";
import { useShow } from "../../store/show.ts";
import css from "./MyRoom.module.css";

const GRIDS: readonly (readonly [words: string, pitch: number, square: number])[] = [
  ["1/4 in squares, one is 6 in", 6.35, 152.4],
  ["1/4 in squares, one is 12 in", 6.35, 304.8],
  ["5 mm squares, one is 12.5 cm", 5, 125],
  ["5 mm squares, one is 25 cm", 5, 250],
  ["5 mm squares, one is 50 cm", 5, 500],
];

export function HouseRules({ onClose }: { readonly onClose: () => void }) {
  const document = useShow((show) => show.document);
  const show = showOf(document);
  const set = (part: Partial<Show>) =>
    act({ label: "Change the house rules", edits: put(document, "shows", { ...show, ...part }) });
  const grid = GRIDS.findIndex(
    ([, pitch, square]) => pitch === show.gridPitch && Math.abs(square - show.gridSquare) < 0.01,
  );
  return (
    <Sheetlet title="House rules" onClose={onClose}>
      <p className="soft">
        Figures are quoted as commonly published. The local authority and the venue decide.
      </p>
      <div className={css["walls"]}>
        <label>
          Country
          <select value={show.place} onChange={(event) => set({ place: event.target.value as Place })}>
            <option value="">not said (US figures)</option>
            <option value="US">United States</option>
            <option value="GB">United Kingdom</option>
            <option value="DE">Germany</option>
          </select>
        </label>
        <label>
          Lengths in
          <select value={show.units} onChange={(event) => set({ units: event.target.value as Units })}>
            <option value="ft-in">feet and inches</option>
            <option value="in">inches</option>
            <option value="m">metres</option>
            <option value="cm">centimetres</option>
            <option value="mm">millimetres</option>
          </select>
        </label>
        <label>
          Grid paper
          <select
            value={grid}
            onChange={(event) => {
              const chosen = GRIDS[Number(event.target.value)];
              if (chosen) set({ gridPitch: chosen[1], gridSquare: chosen[2] });
            }}
          >
            {grid < 0 && <option value={-1}>as it is</option>}
            {GRIDS.map(([words], index) => (
              <option key={words} value={index}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <label>
          State, printed on every sheet
          <input
            defaultValue={show.state}
            maxLength={200}
            onBlur={(event) => set({ state: event.target.value || "draft" })}
          />
        </label>
      </div>
    </Sheetlet>
  );
}
