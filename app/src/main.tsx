// First, so that the engine loads while the screen is made.
import "./store/early.ts";
import "./styles/base.css";
import { createRoot } from "react-dom/client";
import { registerSW } from "virtual:pwa-register";
import { App } from "./App.tsx";
import { Fence } from "./parts/Fence.tsx";
import { open, useShow } from "./store/show.ts";

// The engine starts on the show of the address while the screen is still being made.
void open(location.hash.startsWith("#/mine") ? "mine" : "example");

const root = document.getElementById("root");
if (!root) throw new Error("the page has no root element");
createRoot(root).render(
  <Fence>
    <App />
  </Fence>,
);

/** Storing the app for use without a network waits until the person's sheet is there: it takes the line and a core. */
const stop = useShow.subscribe(({ derived }) => {
  if (!derived) return;
  stop();
  setTimeout(() => registerSW({ immediate: true }), 1500);
});
