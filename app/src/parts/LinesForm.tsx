/** A form that makes lines of the tape sheet and enters them: what cannot be read is said, and nothing typed is lost. */
import { type FormEvent, type ReactNode, useEffect, useRef, useState } from "react";
import type { Enter } from "../act.ts";
import { focusFirst } from "./focus.ts";
import { FieldGrid } from "./Fields.tsx";
import css from "./Fields.module.css";
import { Problems } from "./LineField.tsx";

interface Props {
  /** What the button that enters it says. */
  readonly take: string;
  /** The lines as the fields say them now. */
  readonly lines: () => string;
  readonly enter: Enter;
  /** Called when it is entered, or gone back from. */
  readonly onDone: () => void;
  readonly children: ReactNode;
}

export function LinesForm({ take, lines, enter, onDone, children }: Props) {
  const [problems, setProblems] = useState<readonly string[]>([]);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusFirst(form.current), []);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void enter(lines()).then((found) => (found.length ? setProblems(found) : onDone()));
  };
  return (
    <form ref={form} onSubmit={submit}>
      <FieldGrid>{children}</FieldGrid>
      <Problems problems={problems} />
      <div className={css["choices"]}>
        <button type="submit" className="main">
          {take}
        </button>
        <button type="button" onClick={onDone}>
          Back
        </button>
      </div>
    </form>
  );
}
