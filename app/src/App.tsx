/**
 * The studio table: the stages as a quiet line of words, the sheet filling the screen, slips beside things,
 * the tray and the scale rule along the bottom. Every stage of every show is an address of its own.
 */
import { showOf } from "@cornerwise/engine";
import { useEffect } from "react";
import { Redirect, Route, Router, Switch, useLocation } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import { redoOne, undoOne } from "./act.ts";
import css from "./App.module.css";
import { lookAtRoom, openSheetlet, touch, useDeskState } from "./desk.ts";
import { FileMenu } from "./parts/FileMenu.tsx";
import { PrintSheetlet, printable } from "./print/PrintSheetlet.tsx";
import { MyRoom } from "./stages/begin/MyRoom.tsx";
import { Notes } from "./stages/begin/Notes.tsx";
import { HouseRules } from "./stages/begin/HouseRules.tsx";
import { ModelStage } from "./stages/card/ModelStage.tsx";
import { PagesView } from "./stages/pages/PagesView.tsx";
import { StageView } from "./stages/StageView.tsx";
import { STAGES, type StageName, stageWords } from "./stages/words.ts";
import { useSession } from "./store/session.ts";
import { keptWords, open, useShow, type Which } from "./store/show.ts";

export function App() {
  useLook();
  return (
    // The router takes the address bar's hook as a value: that is its way.
    // oxlint-disable-next-line react/hooks
    <Router hook={useHashLocation}>
      <Switch>
        <Route path="/:which/:stage">
          {({ which, stage }) =>
            isWhich(which) && isStage(stage) ? (
              <Table which={which} stage={stage} />
            ) : (
              <Redirect to="/example/arrange" />
            )
          }
        </Route>
        <Route>
          <Redirect to="/example/arrange" />
        </Route>
      </Switch>
    </Router>
  );
}

function putAway(): void {
  openSheetlet(undefined);
}

function isWhich(word: string | undefined): word is Which {
  return word === "example" || word === "mine";
}

function isStage(word: string | undefined): word is StageName {
  return STAGES.some((stage) => stage.name === word);
}

function Table({ which, stage }: { readonly which: Which; readonly stage: StageName }) {
  const [, go] = useLocation();
  const sheetlet = useDeskState((desk) => desk.sheetlet);
  const said = useDeskState((desk) => desk.said);
  const fault = useShow((show) => show.fault);
  useEffect(() => {
    touch(undefined);
    lookAtRoom(0);
    void open(which);
  }, [which]);
  useUndoKeys();
  return (
    <div className={css["table"]}>
      <Head which={which} stage={stage} />
      <main className={css["main"]}>
        <Stage stage={stage} />
      </main>
      {sheetlet === "my-room" && (
        <MyRoom
          onClose={putAway}
          onBegun={() => {
            putAway();
            go("/mine/measure");
          }}
        />
      )}
      {sheetlet === "print" && <PrintSheetlet onClose={putAway} />}
      {sheetlet === "notes" && <Notes onClose={putAway} />}
      {sheetlet === "house-rules" && <HouseRules onClose={putAway} />}
      <p className="seen-by-readers" role="status">
        {said}
      </p>
      {fault && (
        <p className={css["fault"]} role="alert">
          Something went wrong inside, and what you have is untouched: {fault}{" "}
          <button type="button" className="word" onClick={() => useShow.setState({ fault: undefined })}>
            Put away
          </button>
        </p>
      )}
    </div>
  );
}

/** What lies on the table: the room itself, the card model, or the pages of a later stage. */
function Stage({ stage }: { readonly stage: StageName }) {
  if (stage === "model") return <ModelStage />;
  if (stage === "make" || stage === "install") return <PagesView key={stage} stage={stage} />;
  return <StageView stage={stage} />;
}

function Head({ which, stage }: { readonly which: Which; readonly stage: StageName }) {
  const document = useShow((show) => show.document);
  const derived = useShow((show) => show.derived);
  const undoLabel = useShow((show) => show.undoLabel);
  const redoLabel = useShow((show) => show.redoLabel);
  const roomIndex = useDeskState((desk) => desk.roomIndex);
  const begun = useSession((session) => session.countryAsked);
  const show = showOf(document);
  return (
    <header className={css["head"]}>
      <div className={css["name"]}>
        <h1>{show.name}</h1>
        <Kept />
      </div>
      <nav className={css["stages"]} aria-label="Stages of the job">
        {STAGES.map(({ name, words }) => (
          <a
            key={name}
            href={`#/${which}/${name}`}
            // What is touched on one stage's sheet has no place on another's.
            onClick={() => touch(undefined)}
            aria-current={name === stage ? "page" : undefined}
          >
            <b>{words}</b>
            <span>{stageWords(name, derived, { units: show.units, roomIndex })}</span>
          </a>
        ))}
      </nav>
      <div className={css["tools"]}>
        <button
          type="button"
          className="word"
          disabled={!undoLabel}
          title={undoLabel}
          onClick={() => void undoOne()}
        >
          Undo
        </button>
        <button
          type="button"
          className="word"
          disabled={!redoLabel}
          title={redoLabel}
          onClick={() => void redoOne()}
        >
          Redo
        </button>
        <button
          type="button"
          className="word"
          disabled={!derived || !printable()}
          onClick={() => openSheetlet("print")}
        >
          Print
        </button>
        <FileMenu />
        {which === "example" && begun ? (
          <a className={css["mine"]} href="#/mine/measure">
            My room
          </a>
        ) : (
          <button
            type="button"
            className={which === "example" ? "main" : ""}
            onClick={() => openSheetlet("my-room")}
          >
            {which === "example" ? "My room" : "Begin again"}
          </button>
        )}
        {which === "mine" && (
          <a className={css["other"]} href="#/example/arrange">
            The example
          </a>
        )}
      </div>
    </header>
  );
}

function Kept() {
  const kept = useShow((show) => show.kept);
  const progress = useShow((show) => show.progress);
  return (
    <p className={css["kept"]} data-kept={kept.kind}>
      {progress === undefined ? keptWords(kept) : `working, ${Math.round(progress * 100)} %`}
    </p>
  );
}

/** Day or night, as the person said or else as the device is set. */
function useLook() {
  const look = useSession((session) => session.look);
  useEffect(() => {
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const set = () => {
      const night = look === "night" || (look === "as the device" && dark.matches);
      document.documentElement.dataset["look"] = night ? "night" : "day";
    };
    set();
    dark.addEventListener("change", set);
    return () => dark.removeEventListener("change", set);
  }, [look]);
}

function useUndoKeys() {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
      const key = event.key.toLowerCase();
      if (typing || (key !== "z" && key !== "y")) return;
      event.preventDefault();
      void (key === "y" || event.shiftKey ? redoOne() : undoOne());
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, []);
}
