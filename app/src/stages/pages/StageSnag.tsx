/** A snag whole, beside a page: pages have no place of their own for it to stand at. */
import { printLength, type Snag, type Units } from "@cornerwise/engine";
import { touch } from "../../desk.ts";
import { SnagSlip } from "../../snags/SnagList.tsx";
import { BesideSlip } from "./BesideSlip.tsx";

const TITLES = { stop: "Stop", mind: "Mind", know: "Know" } as const;

export function StageSnag({ snag, units }: { readonly snag: Snag | undefined; readonly units: Units }) {
  if (snag === undefined) return null;
  return (
    <BesideSlip title={TITLES[snag.level]} onClose={() => touch(undefined)}>
      <SnagSlip snag={snag} length={(mm) => printLength(mm, units)} />
    </BesideSlip>
  );
}
