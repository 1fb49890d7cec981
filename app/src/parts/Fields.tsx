/** Fields of a form that is said as lines of the tape sheet: a word over each, what is needed asked for before it goes. */
import type { ReactNode } from "react";
import css from "./Fields.module.css";

interface TextProps {
  readonly label: string;
  readonly value: string | undefined;
  readonly onChange: (value: string) => void;
  /** Takes the keyboard when the form appears. */
  readonly first?: boolean;
  readonly required?: boolean;
  readonly wide?: boolean;
  /** How such a thing is written. */
  readonly such?: string;
  readonly type?: "text" | "date" | "time" | "number";
}

export function Text({
  label,
  value,
  onChange,
  first = false,
  required = false,
  wide = false,
  such,
  type = "text",
}: TextProps) {
  return (
    <label className={wide ? css["wide"] : undefined}>
      <span className="small">{label}</span>
      <input
        type={type}
        value={value ?? ""}
        autoComplete="off"
        required={required}
        placeholder={such}
        min={type === "number" ? 1 : undefined}
        data-first={first ? "" : undefined}
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly value: string | undefined;
  /** Each as it is said, or with other words for it. */
  readonly options: readonly (string | readonly [value: string, words: string])[];
  readonly onChange: (value: string) => void;
  readonly wide?: boolean;
}

export function Choice({ label, value, options, onChange, wide = false }: ChoiceProps) {
  return (
    <label className={wide ? css["wide"] : undefined}>
      <span className="small">{label}</span>
      <select value={value} onChange={(event) => onChange(event.target.value)}>
        {options.map((option) => {
          const [said, words] = typeof option === "string" ? [option, option] : option;
          return (
            <option key={said} value={said}>
              {words}
            </option>
          );
        })}
      </select>
    </label>
  );
}

/** Two fields side by side, a wide one across both. */
export function FieldGrid({ children }: { readonly children: ReactNode }) {
  return <div className={css["grid"]}>{children}</div>;
}
