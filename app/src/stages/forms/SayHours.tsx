/** When the venue lets the crew in. */
import { listed, showOf, type ShowDocument } from "@cornerwise/engine";
import { useState } from "react";
import type { Enter } from "../../act.ts";
import { Text } from "../../parts/Fields.tsx";
import { LinesForm } from "../../parts/LinesForm.tsx";
import { useShow } from "../../store/show.ts";
import { hoursLines } from "./compose.ts";

export function SayHours({ enter, onDone }: { readonly enter: Enter; readonly onDone: () => void }) {
  const document = useShow((state) => state.document);
  const zoneAsked = showOf(document).zone === "";
  const [said, setSaid] = useState(() => ({
    ...nextHours(document),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  }));
  const set = (key: keyof typeof said) => (value: string) => setSaid({ ...said, [key]: value });
  return (
    <LinesForm
      take="Say these hours"
      enter={enter}
      onDone={onDone}
      lines={() => hoursLines({ ...said, zone: zoneAsked ? said.zone : "" })}
    >
      <Text label="Day" type="date" value={said.day} onChange={set("day")} first required wide />
      <Text label="From" type="time" value={said.from} onChange={set("from")} required />
      <Text label="To" type="time" value={said.to} onChange={set("to")} required />
      <Text label="People" type="number" value={said.people} onChange={set("people")} required wide />
      {zoneAsked && (
        <Text label="Whose clock: the venue's time zone" value={said.zone} onChange={set("zone")} wide />
      )}
    </LinesForm>
  );
}

/** The day after the last one said with its hours and people; else a day to be chosen, by day, two people. */
function nextHours({ shifts }: ShowDocument) {
  const last = listed(shifts)
    .toSorted((a, b) => a.start.localeCompare(b.start))
    .at(-1);
  const [day = "", from = "09:00"] = last?.start.split("T") ?? [];
  return {
    day: day && dayAfter(day),
    from,
    to: last?.end.split("T")[1] ?? "18:00",
    people: String(last?.people ?? 2),
  };
}

function dayAfter(day: string): string {
  const next = new Date(`${day}T12:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return next.toISOString().slice(0, 10);
}
