/** Every rule's fixture, stage by stage. */
import type { RuleFixtures } from "./fixture.ts";
import { ARRANGE_FIXTURES } from "./arrange.ts";
import { INSTALL_FIXTURES } from "./install.ts";
import { MAKE_FIXTURES } from "./make.ts";
import { MEASURE_FIXTURES } from "./measure.ts";
import { MODEL_FIXTURES } from "./model.ts";
import { SHEET_FIXTURES } from "./sheet.ts";

export const RULE_FIXTURES = {
  ...MEASURE_FIXTURES,
  ...ARRANGE_FIXTURES,
  ...MAKE_FIXTURES,
  ...MODEL_FIXTURES,
  ...INSTALL_FIXTURES,
  ...SHEET_FIXTURES,
} satisfies RuleFixtures;
