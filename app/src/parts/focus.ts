/** Where the keyboard goes when a slip or a paper appears: its marked field, else its first field, else a button. */
export function focusFirst(inside: HTMLElement | null): void {
  const order = ["[data-first]", "input:not([type=file]), select, textarea", "button:not(.word)", "button"];
  for (const choice of order) {
    const found = inside?.querySelector<HTMLElement>(choice);
    if (found) {
      found.focus({ preventScroll: true });
      return;
    }
  }
}
