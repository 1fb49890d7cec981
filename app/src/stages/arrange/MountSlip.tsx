/** Where a thing is fixed to its wall, in typed lengths, above the line that says the same. */
import { printLength, showOf } from "@cornerwise/engine";
import { act } from "../../act.ts";
import { FieldGrid } from "../../parts/Fields.tsx";
import { useShow } from "../../store/show.ts";
import { moveMount } from "./commands.ts";
import { LengthBox, signedLength } from "./PieceSlip.tsx";

export function MountPlace({ id }: { readonly id: string }) {
  const document = useShow((show) => show.document);
  const mount = document.mounts[id];
  if (!mount) return null;
  const units = showOf(document).units;
  const corner = document.corners[mount.datum]?.name ?? "the corner";
  const move = (to: { readonly offset?: number; readonly up?: number }) =>
    act(moveMount(useShow.getState().document, id, { offset: mount.offset, up: mount.up, ...to }));
  return (
    <FieldGrid>
      <LengthBox
        label={`Its middle from ${corner}`}
        value={printLength(mount.offset, units)}
        read={(text) => signedLength(text, units)}
        onRead={(offset) => move({ offset })}
      />
      <LengthBox
        label="Underside above floor"
        value={printLength(mount.up, units)}
        read={(text) => signedLength(text, units)}
        onRead={(up) => move({ up })}
      />
    </FieldGrid>
  );
}
