/**
 * Session state: what belongs to this device, never to the show. The look, what the printer needs and the
 * answers asked once survive in the browser's small store; what is under the hand just now is `desk.ts`.
 */
import { TRUE_PRINTER, type PrintCorrection } from "@cornerwise/engine";
import { create } from "zustand";
import { persist } from "zustand/middleware";

/** Everything here survives a visit. */
export interface Session {
  readonly look: "as the device" | "day" | "night";
  readonly correction: PrintCorrection;
  readonly paper: "letter" | "a4" | undefined;
  /** Whether the country for the house rules has been asked, so that it is asked once. */
  readonly countryAsked: boolean;
  /** Whether the browser has been asked to keep what is stored. */
  readonly keepingAsked: boolean;
}

const FRESH: Session = {
  look: "as the device",
  correction: TRUE_PRINTER,
  paper: undefined,
  countryAsked: false,
  keepingAsked: false,
};

/** The session; change it with `useSession.setState({ ... })`. */
export const useSession = create<Session>()(persist(() => FRESH, { name: "cornerwise-session", version: 1 }));
