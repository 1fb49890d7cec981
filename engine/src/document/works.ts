/**
 * The kinds of work of a show, from cutting to the last walk round, in the trade's order of install: walls before
 * trim, trim before floor coverings, furniture on the floor, accessories on the furniture, small fittings last,
 * since they locate against everything (common practice, no source).
 */

/** Work done before the van is loaded: what one of it is stands beside it. */
export const MAKING_WORKS = ["cut strip", "cut stick", "cut panel", "make piece"] as const;

/** Work done in the room, in the order it is done. */
export const INSTALL_WORKS = [
  "receive",
  "protect",
  "record",
  "set out",
  "batten",
  "strip",
  "trim",
  "floor",
  "furniture",
  "hung",
  "accessory",
  "fitting",
  "chore",
  "clean",
  "sign off",
] as const;

export type MakingWork = (typeof MAKING_WORKS)[number];
export type InstallWork = (typeof INSTALL_WORKS)[number];
export type Work = MakingWork | InstallWork;

/** Every kind of work a person can have a rate of her own for. */
export const WORKS = [...MAKING_WORKS, ...INSTALL_WORKS] as const;

/** What one of a work is, as a rate counts it: "20 minutes a strip". */
export const WORK_UNITS: { readonly [W in Work]: string } = {
  "cut strip": "strip",
  "cut stick": "cut length",
  "cut panel": "panel",
  "make piece": "piece",
  receive: "room",
  protect: "room",
  record: "room",
  "set out": "mark",
  batten: "batten",
  strip: "strip",
  trim: "length of trim",
  floor: "panel or border length",
  furniture: "piece",
  hung: "hung piece",
  accessory: "accessory",
  fitting: "fitting",
  chore: "chore",
  clean: "room",
  "sign off": "room",
};
