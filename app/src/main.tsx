import "./styles/base.css";
import { createRoot } from "react-dom/client";
import { App } from "./App.tsx";
import { Fence } from "./parts/Fence.tsx";

const root = document.getElementById("root");
if (!root) throw new Error("the page has no root element");
createRoot(root).render(
  <Fence>
    <App />
  </Fence>,
);
