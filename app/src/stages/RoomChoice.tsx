/** Which room lies on the table, where the show has several. */
import { lookAtRoom, touch, useDeskState } from "../desk.ts";
import { useShow } from "../store/show.ts";

export function RoomChoice() {
  const rooms = useShow((show) => show.derived?.rooms) ?? [];
  const chosen = useDeskState((desk) => desk.roomIndex);
  if (rooms.length < 2) return null;
  return (
    <select
      aria-label="Room"
      value={chosen < rooms.length ? chosen : 0}
      onChange={(event) => {
        touch(undefined);
        lookAtRoom(Number(event.target.value));
      }}
    >
      {rooms.map(({ room }, at) => (
        <option key={room.id} value={at}>
          {room.name}
        </option>
      ))}
    </select>
  );
}
