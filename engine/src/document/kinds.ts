/** The kinds of the venue's things to keep clear, in the order they are offered. */
export const FIXTURE_KINDS = [
  "outlet",
  "switch",
  "exit sign",
  "alarm",
  "extinguisher",
  "sprinkler",
  "thermostat",
  "vent",
  "panel",
  "hatch",
  "radiator",
  "projection",
  "column",
] as const;
