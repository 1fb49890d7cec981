/** The whole typefaces for paper, as their packages bring them: latin-only web fonts lack primes and eighths. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const bytes = (place: string): Uint8Array => readFileSync(require.resolve(`@expo-google-fonts/${place}`));

/** The three faces of the sheets, read when a PDF is asked for. */
export function sheetFonts(): { sans: Uint8Array; sansBold: Uint8Array; mono: Uint8Array } {
  return {
    sans: bytes("ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf"),
    sansBold: bytes("ibm-plex-sans/600SemiBold/IBMPlexSans_600SemiBold.ttf"),
    mono: bytes("ibm-plex-mono/400Regular/IBMPlexMono_400Regular.ttf"),
  };
}
