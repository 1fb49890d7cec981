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
