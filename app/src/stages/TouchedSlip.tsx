/** The slip of whatever is touched, standing beside it. */
import {
  type Arrangement,
  type Frame,
  type Gap,
  type Point,
  printLength,
  remove,
  type ShowDocument,
  showOf,
  type Snag,
  toHost,
} from "@cornerwise/engine";
import { act, type Enter } from "../act.ts";
import { touch, type Touched, useDeskState } from "../desk.ts";
import { Slip } from "../parts/Slip.tsx";
import { type Desk, paperToScreen, roomToPaper, useDesk } from "../sheet/view.ts";
import { SnagSlip } from "../snags/SnagList.tsx";
import { useShow } from "../store/show.ts";
import { duplicate, hangAt, putBack, putOn, standAt } from "./arrange/commands.ts";
import { PieceSlip } from "./arrange/PieceSlip.tsx";
import { asSaid, hostsFor } from "./arrange/where.ts";
import { CornerSlip, PairSlip, WallSlip } from "./measure/Slips.tsx";

interface Props {
  readonly arrangement: Arrangement;
  readonly document: ShowDocument;
  readonly frame: Frame;
  readonly gaps: readonly Gap[];
  readonly snags: readonly Snag[];
  readonly enter: Enter;
  readonly onOpenSide: (from: string, to: string, open: boolean) => void;
}

export function TouchedSlip(props: Props) {
  const desk = useDesk();
  const touched = useDeskState((state) => state.touched);
  const dragging = useDeskState((state) => state.drag !== undefined);
  const content = touched && contentOf(touched, props);
  if (!content || dragging) return null;
  const at = paperToScreen(desk.view, roomToPaper(props.frame, content.at));
  return (
    <Slip
      key={content.key}
      title={content.title}
      at={at}
      size={desk.size}
      reach={(content.reach / props.frame.scale) * desk.view.k}
      room={sidesOf(props, desk)}
      takesFocus={content.takesFocus}
      onClose={() => touch(undefined)}
    >
      {content.body}
    </Slip>
  );
}

/** How far the room reaches to the left and right on the screen, its dimension lines counted, px. */
function sidesOf({ arrangement, frame }: Props, { view }: Desk) {
  const across = arrangement.room.corners.map((corner) => paperToScreen(view, roomToPaper(frame, corner)).x);
  return { left: Math.min(...across) - LETTERS * view.k, right: Math.max(...across) + LETTERS * view.k };
}

/** Paper mm that a wall's dimension and letters take outside of it. */
const LETTERS = 8;

interface Content {
  readonly key: string;
  readonly title: string;
  readonly at: Point;
  /** Half its size, mm in the room. */
  readonly reach: number;
  readonly takesFocus: boolean;
  readonly body: React.ReactNode;
}

function contentOf(touched: Touched, props: Props): Content | undefined {
  if (touched.kind === "placement") return pieceContent(touched.id, props);
  if (touched.kind === "snag") return snagContent(touched.index, props);
  if (touched.kind === "record") return undefined;
  return measureContent(touched, props);
}

function pieceContent(id: string, { arrangement, document, gaps }: Props): Content | undefined {
  const standing = arrangement.standing.find((one) => one.placement.id === id);
  if (!standing) return undefined;
  return {
    key: id,
    title: standing.name,
    at: standing.stand,
    reach: Math.max(0, ...standing.outline.flat().map((point) => Math.abs(point.x - standing.stand.x))),
    takesFocus: false,
    body: (
      <PieceSlip
        document={document}
        room={arrangement.room}
        standing={standing}
        hosts={hostsFor(arrangement, id)}
        onPutOn={(host) => {
          const stand = standing.stand;
          act(
            putOn(documentNow(), id, {
              ...(host
                ? { ...toHost({ ...host.stand, turn: stand.turn }, host), on: host.placement.id }
                : stand),
            }),
          );
        }}
        onHang={(up) => act(hangAt(documentNow(), id, up))}
        gaps={gaps}
        onStand={(to) => act(standAt(documentNow(), id, asSaid(arrangement, id, to)))}
        onDuplicate={() => act(duplicate(documentNow(), id, showOf(document).gridSquare))}
        onPutBack={() => {
          touch(undefined);
          act(putBack(documentNow(), id));
        }}
      />
    ),
  };
}

function snagContent(index: number, { arrangement, document, snags }: Props): Content | undefined {
  const snag = snags[index];
  if (!snag) return undefined;
  return {
    key: `snag ${index}`,
    title: { stop: "Stop", mind: "Mind", know: "Know" }[snag.level],
    at: snag.at ?? arrangement.room.corners[0] ?? { x: 0, y: 0 },
    reach: 0,
    takesFocus: true,
    body: <SnagSlip snag={snag} length={(mm) => printLength(mm, showOf(document).units)} />,
  };
}

function measureContent(
  touched: Extract<Touched, { kind: "corner" | "wall" | "pair" }>,
  { arrangement: { room }, document, enter, onOpenSide }: Props,
): Content | undefined {
  const show = showOf(document);
  const corner = (id: string) => room.corners.find((candidate) => candidate.id === id);
  if (touched.kind === "corner") {
    const found = corner(touched.id);
    return (
      found && {
        key: touched.id,
        title: `Corner ${found.name}`,
        at: found,
        reach: 0,
        takesFocus: false,
        body: <CornerSlip room={room} show={show} enter={enter} corner={found} />,
      }
    );
  }
  if (touched.kind === "pair") {
    const from = corner(touched.from);
    const to = corner(touched.to);
    return (
      from &&
      to && {
        key: `${from.id} ${to.id}`,
        title: `${from.name} to ${to.name}`,
        at: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 },
        reach: 0,
        takesFocus: true,
        body: <PairSlip room={room} show={show} enter={enter} from={from} to={to} />,
      }
    );
  }
  const wall = room.walls.find((candidate) => candidate.id === touched.id);
  const from = wall && corner(wall.from);
  const to = wall && corner(wall.to);
  return (
    wall &&
    from &&
    to && {
      key: wall.id,
      title: `${wall.open ? "Open side" : "Wall"} ${wall.name}`,
      at: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 },
      reach: 0,
      takesFocus: true,
      body: (
        <WallSlip
          room={room}
          show={show}
          enter={enter}
          wall={wall}
          onOpen={(open) => onOpenSide(wall.from, wall.to, open)}
          onTakeAway={(table, id, name) =>
            act({ label: `Take ${name} away`, edits: remove(documentNow(), table, id) })
          }
        />
      ),
    }
  );
}

/** The document as it is when the hand acts, which may be later than when the slip was drawn. */
function documentNow(): ShowDocument {
  return useShow.getState().document;
}
