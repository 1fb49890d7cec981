/** Long work cut into slices with a breath between, so that the screen is never held. */

/** Edits written in one go; at about 15 µs an edit this stays near 30 ms. */
export const SLICE = 2000;

/** Lets the browser draw and take input before going on. Works in a tab that is out of sight, too. */
export function breath(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port2.addEventListener("message", () => {
      port1.close();
      resolve();
    });
    port2.start();
    port1.postMessage(undefined);
  });
}

/** The list in runs of at most `size`. */
export function runs<T>(list: readonly T[], size: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(list.length / size) }, (_, i) =>
    list.slice(i * size, (i + 1) * size),
  );
}
