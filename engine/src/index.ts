/** The engine's one door. The PDF writer stands behind `@cornerwise/engine/pdf`, so that it can load late. */
export * from "./document/tables.ts";
export * from "./change/change.ts";
export type * from "./snags/snag.ts";
export * from "./snags/catalogue.ts";
export * from "./sheet/vocabulary.ts";
export type * from "./plane/point.ts";
export type * from "./measure/model.ts";
export type * from "./arrange/model.ts";
export * from "./tolerances.ts";

export * from "./derive.ts";
export * from "./units/scan.ts";
export * from "./units/length.ts";
export * from "./units/figures.ts";
export type * from "./document/problem.ts";
export { printProblem } from "./document/problem.ts";
export * from "./document/file.ts";
export * from "./document/text.ts";
export { DOCUMENT_VERSION, NAME_LIMIT } from "./document/schema.ts";
