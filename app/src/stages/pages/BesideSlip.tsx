/** A slip that lies at the side of a page: on a phone along the bottom, in reach of the thumb. */
import { type ReactNode, useEffect, useRef } from "react";
import { focusFirst } from "../../parts/focus.ts";
import css from "./PagesView.module.css";

export function BesideSlip({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  const ref = useRef<HTMLElement>(null);
  useEffect(() => focusFirst(ref.current), []);
  return (
    <section
      ref={ref}
      className={css["beside"]}
      aria-label={title}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        onClose();
      }}
    >
      <header>
        <h2>{title}</h2>
        <button type="button" className="word" onClick={onClose}>
          Close
        </button>
      </header>
      {children}
    </section>
  );
}
