/** One touch deeper: every reading with what the room makes of it, and every corner with its doubt. */
import {
  type Show,
  SURE,
  type TrueRoom,
  printAngle,
  printArea,
  printDoubt,
  printLength,
} from "@cornerwise/engine";
import css from "./ReadingsSlip.module.css";

export function ReadingsTable({
  room,
  show,
  onTakeAway,
}: {
  readonly room: TrueRoom;
  readonly show: Show;
  readonly onTakeAway: (id: string) => void;
}) {
  const size = (value: number, angle: boolean) =>
    angle ? printAngle(value) : printLength(value, show.units);
  return (
    <div className={css["tables"]}>
      <p>
        The floor is {printArea(room.area, show.units)}.{" "}
        {(room.test.freedom > 0 || !room.test.passes) &&
          (room.test.passes
            ? "The readings agree as well as their tapes promise."
            : "The readings do not agree: look at the ones that are off most.")}
        {room.test.closure !== undefined &&
          ` Laid end to end the walls miss by ${printLength(room.test.closure, show.units)}.`}
      </p>
      {room.assumptions.map((assumption) => (
        <p key={assumption.about + assumption.sentence} className="soft">
          {assumption.sentence}
        </p>
      ))}
      <div className={css["scroll"]} role="region" aria-label="Readings" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Reading</th>
              <th scope="col">Room makes it</th>
              <th scope="col">Off by</th>
              <th scope="col">Controlled</th>
              <th scope="col">Standardised</th>
              <th scope="col">
                <span className="seen-by-readers">Take away</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {room.readings.map((result) => {
              const angle = result.reading.kind === "angle";
              return (
                <tr key={result.reading.id} className={result.suspect ? "red" : undefined}>
                  <th scope="row">
                    {result.text}
                    {result.suspect && " (suspect)"}
                  </th>
                  <td>{size(result.adjusted, angle)}</td>
                  <td>{size(result.residual, angle)}</td>
                  <td>{Math.round(result.redundancy * 100)} %</td>
                  <td>{result.standardised.toFixed(1)}</td>
                  <td>
                    <button
                      type="button"
                      className="word"
                      aria-label={`Take ${result.text} away`}
                      onClick={() => onTakeAway(result.reading.id)}
                    >
                      Take away
                    </button>
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <div className={css["scroll"]} role="region" aria-label="Corners" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Corner</th>
              <th scope="col">Inside angle</th>
              <th scope="col">Where it is</th>
              <th scope="col">Height</th>
            </tr>
          </thead>
          <tbody>
            {room.corners.map((corner) => (
              <tr key={corner.id}>
                <th scope="row">{corner.name}</th>
                <td>{printAngle(corner.angle)}</td>
                <td>{printDoubt(Math.hypot(corner.sdX, corner.sdY) * SURE, show.units)}</td>
                <td>
                  {printLength(corner.height, show.units)}
                  {corner.heightSaid ? "" : " (assumed)"}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
