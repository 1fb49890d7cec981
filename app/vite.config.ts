import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/** The built app is a plain folder for any web host, at any path, and works with the network off. */
export default defineConfig({
  root: import.meta.dirname,
  base: "./",
  plugins: [
    react(),
    VitePWA({
      registerType: "autoUpdate",
      // The app registers it itself, once the first sheet is on the table: see main.tsx.
      injectRegister: null,
      includeAssets: ["icon.svg"],
      manifest: {
        name: "Cornerwise",
        short_name: "Cornerwise",
        description: "One measured room, one list of pieces, through the whole job.",
        display: "standalone",
        background_color: "#E7E1D6",
        theme_color: "#E7E1D6",
        icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
      workbox: {
        // Everything the built folder holds, the fonts of the printed sheets too: the network may be off on site.
        globPatterns: ["**/*.{js,css,html,svg,woff2,woff,ttf,json}"],
        maximumFileSizeToCacheInBytes: 6_000_000,
      },
    }),
  ],
  worker: { format: "es" },
  build: { manifest: true, target: "es2023", sourcemap: false },
});
