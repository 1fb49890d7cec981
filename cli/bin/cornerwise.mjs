#!/usr/bin/env node
// The sources are TypeScript and run as they are; what reads them is among the packages set-up installs.
let register;
try {
  ({ register } = await import("tsx/esm/api"));
} catch {
  process.stderr.write(
    "Cornerwise has not been set up here yet.\nMend: run `npm run setup` in its folder, once.\n",
  );
  process.exit(4);
}
register();
await import("../src/main.ts");
