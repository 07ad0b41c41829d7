/**
 * The catalogue in French: the trade's words as twirling clubs say them (lancer, rattrapage, chute, figure, série), and
 * the names of sheets, stages and statuses as the workbook has them. Terms are common practice, no source.
 */
import type { Texts } from "../texts";
import { firstSteps } from "./first-steps";
import { functions } from "./functions";
import { logSet } from "./log-set";
import { ownSheet } from "./own-sheet";
import { pane } from "./pane";
import { pictures } from "./pictures";
import { season } from "./season";
import { tempo } from "./tempo";
import { withFirmSpaces } from "./firm-spaces";

export const french: Texts = withFirmSpaces({
  ...pane,
  ...logSet,
  ...season,
  ...tempo,
  ...ownSheet,
  ...functions,
  ...pictures,
  ...firstSteps,
});
