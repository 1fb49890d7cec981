/** The store alone on a page, so that a test can act on it as screens do. */
import * as engine from "@cornerwise/engine";
import * as store from "../../src/store/show.ts";

declare global {
  interface Window {
    readonly store: typeof store;
    readonly engine: typeof engine;
  }
}

Object.assign(window, { store, engine });
