/** Writes the show file's JSON Schema to the path given: the one the app publishes beside itself. */
import { writeFileSync } from "node:fs";
import { jsonSchema } from "@cornerwise/engine";

const [path] = process.argv.slice(2);
if (path === undefined) throw new Error("schema needs the path to write to");
writeFileSync(path, `${JSON.stringify(jsonSchema(), null, 2)}\n`);
