/** One typed line: Enter takes it, what cannot be read is said beside it and nothing typed is lost. */
import { type FormEvent, useId, useState } from "react";
import css from "./LineField.module.css";

interface Props {
  readonly label: string;
  /** A short word on the button; the field's own name tells the rest. */
  readonly take?: string;
  readonly placeholder?: string;
  /** Lines that show how it is said; pressed, one stands in the field to be changed. */
  readonly samples?: readonly string[];
  readonly first?: boolean;
  /** Takes the text; answers with why it cannot, or nothing. */
  readonly onTake: (text: string) => Promise<readonly string[]>;
}

export function LineField({ label, take = "Enter", placeholder, samples = [], first, onTake }: Props) {
  const [text, setText] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const id = useId();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (!text.trim()) return;
    void onTake(text).then((found) => {
      setProblems(found);
      if (found.length === 0) setText("");
    });
  };
  return (
    <form className={css["field"]} onSubmit={submit}>
      <label htmlFor={id}>{label}</label>
      <div className={css["row"]}>
        <input
          id={id}
          value={text}
          placeholder={placeholder}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          enterKeyHint="next"
          data-first={first ? "" : undefined}
          aria-invalid={problems.length > 0}
          aria-describedby={problems.length ? `${id}-why` : undefined}
          onChange={(event) => setText(event.target.value)}
        />
        <button type="submit">{take}</button>
      </div>
      <Problems id={`${id}-why`} problems={problems} />
      {samples.length > 0 && text === "" && (
        <div className={css["samples"]}>
          <span className="small soft">Such as:</span>
          {samples.map((sample) => (
            <button
              key={sample}
              type="button"
              className="word"
              onClick={() => {
                setText(sample);
                document.getElementById(id)?.focus();
              }}
            >
              {sample}
            </button>
          ))}
        </div>
      )}
    </form>
  );
}

/** Why something could not be read, all of it at once. */
export function Problems({ id, problems }: { readonly id?: string; readonly problems: readonly string[] }) {
  if (problems.length === 0) return null;
  return (
    <ul className={css["problems"]} id={id} role="alert">
      {problems.slice(0, 12).map((problem, index) => (
        <li key={index}>{problem}</li>
      ))}
      {problems.length > 12 && <li>and {problems.length - 12} more</li>}
    </ul>
  );
}
