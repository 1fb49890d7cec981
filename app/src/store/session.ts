/**
 * Session state: what belongs to this device and this visit, never to the show. The look, what the printer
 * needs and the answers asked once survive in the browser's small store; selection and zoom do not.
 */
import { TRUE_PRINTER, type PrintCorrection } from "@cornerwise/engine";
import { create } from "zustand";
import { persist } from "zustand/middleware";

/** The patch of the sheet in view, in sheet mm: its middle, and screen pixels to one mm. */
export interface View {
  readonly x: number;
  readonly y: number;
  readonly zoom: number;
}

export interface Session {
  /** Ids of the records that are selected, last touched last. */
  readonly selected: readonly string[];
  /** Undefined until the person has moved the sheet: then it is fitted to the screen. */
  readonly view: View | undefined;
  /** Id of the room that is looked at; undefined for the first. */
  readonly room: string | undefined;
  readonly look: "as the device" | "day" | "night";
  readonly correction: PrintCorrection;
  readonly paper: "letter" | "a4" | undefined;
  /** Whether the country for the house rules has been asked, so that it is asked once. */
  readonly countryAsked: boolean;
  /** Whether the browser has been asked to keep what is stored. */
  readonly keepingAsked: boolean;
}

const FRESH: Session = {
  selected: [],
  view: undefined,
  room: undefined,
  look: "as the device",
  correction: TRUE_PRINTER,
  paper: undefined,
  countryAsked: false,
  keepingAsked: false,
};

/** What survives a visit. */
function lasting({ look, correction, paper, countryAsked, keepingAsked }: Session): Partial<Session> {
  return { look, correction, paper, countryAsked, keepingAsked };
}

/** The session; change it with `useSession.setState({ ... })`. */
export const useSession = create<Session>()(
  persist(() => FRESH, { name: "cornerwise-session", version: 1, partialize: lasting }),
);

/** Selects these records and nothing else. */
export function select(...ids: readonly string[]): void {
  useSession.setState({ selected: ids });
}
