/** The card model stage: the model itself, or its sheets to cut. The 3-D part comes late. */
import { lazy, Suspense, useState } from "react";
import { PagesView } from "../pages/PagesView.tsx";
import css from "../StageView.module.css";

const CardView = lazy(() => import("./CardView.tsx"));

export function ModelStage() {
  const [sheets, setSheets] = useState(false);
  if (sheets) return <PagesView stage="model" onModel={() => setSheets(false)} />;
  return (
    <Suspense fallback={<p className={css["wait"]}>Standing the card up…</p>}>
      <CardView onSheets={() => setSheets(true)} />
    </Suspense>
  );
}
