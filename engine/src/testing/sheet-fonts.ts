/** The typefaces the sheets are printed in, for tests and benchmarks that run where there are files. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const from = createRequire(import.meta.url);
const read = (file: string): Uint8Array =>
  new Uint8Array(readFileSync(from.resolve(`@expo-google-fonts/${file}`)));

/** The bytes of the three faces. */
export function sheetFonts(): {
  readonly sans: Uint8Array;
  readonly sansBold: Uint8Array;
  readonly mono: Uint8Array;
} {
  return {
    sans: read("ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf"),
    sansBold: read("ibm-plex-sans/600SemiBold/IBMPlexSans_600SemiBold.ttf"),
    mono: read("ibm-plex-mono/400Regular/IBMPlexMono_400Regular.ttf"),
  };
}
