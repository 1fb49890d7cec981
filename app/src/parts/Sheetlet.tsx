/** A paper laid over the table for a task of its own: the platform's dialog, with a title and a close word. */
import { type ReactNode, useEffect, useRef } from "react";
import { focusFirst } from "./focus.ts";
import css from "./Sheetlet.module.css";

export function Sheetlet({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  const ref = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    const dialog = ref.current;
    if (dialog && !dialog.open) dialog.showModal();
    focusFirst(dialog);
    return () => {
      dialog?.close();
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={ref}
      className={css["paper"]}
      aria-label={title}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onClick={(event) => {
        if (event.target === ref.current) onClose();
      }}
    >
      <div className={css["inside"]}>
        <header className={css["head"]}>
          <h2>{title}</h2>
          <button type="button" className="word" onClick={onClose}>
            Close
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
