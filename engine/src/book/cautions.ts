/** The usual cautions of the trade, printed at the end of every book. Common practice, no source, where none is named. */
import type { Paragraph } from "../sheet/tables.ts";

export const CAUTIONS: readonly Paragraph[] = [
  {
    head: "Who decides",
    text: "The local authority, the fire officer, the venue and the licensed trades decide. Codes and standards are quoted here as commonly published; ask which edition holds where you are.",
  },
  {
    head: "Ladders",
    text: "A leaning ladder stands 1 out for every 4 up, reaches 3 ft past a landing, and is held or tied. Three points of contact. Never stand on the top of a stepladder. Lifts are for trained operators.",
  },
  {
    head: "Work aloft",
    text: "Nobody works aloft alone, or late, or tired. Nobody stands below. Nothing is fixed to a ceiling, a sprinkler pipe or a truss without the venue's word.",
  },
  {
    head: "Lifting",
    text: "Weigh it first, then decide how many people. Lift with two what one could only just lift. Clear the way before you pick it up, and agree who speaks.",
  },
  {
    head: "Electricity",
    text: "Before covering or working at an outlet, a switch or a panel, turn it off at the breaker and test it. Wiring is for a licensed electrician. Keep 3 ft clear before every panel.",
  },
  {
    head: "Fire and ways out",
    text: "Exits, exit signs, extinguishers, alarms and sprinklers stay seen, reachable and uncovered at every hour, also during the work. Nothing made here may look like safety gear.",
  },
  {
    head: "Tools and dust",
    text: "Fresh blades, a cutting mat, a guard on every saw. A mask for dust, moving air for adhesives and sprays.",
  },
  {
    head: "These sheets",
    text: "They rest on the readings listed in this book and are as good as those. Measure the check bars at the foot before you trust a print, and measure the room again before you cut what cannot be cut twice.",
  },
];
