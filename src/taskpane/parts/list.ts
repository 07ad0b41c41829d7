/**
 * The parts of the pane in the order of their tabs. The tests walk this list: a part that stands in it is opened, measured and
 * read aloud by them from its first line. All but the first are fetched when they are opened.
 */
import { texts } from "../words/texts";
import { lazyPart } from "./lazy-part";
import { logSetPart } from "./log-set/log-set-part";
import type { Part } from "./part";

export const parts: readonly Part[] = [
  logSetPart,
  lazyPart(
    "pictures",
    () => texts.picturesTitle,
    async () => (await import(/* webpackChunkName: "pictures" */ "./pictures/pictures-part")).picturesPart,
  ),
  lazyPart(
    "new-season",
    () => texts.newSeasonTitle,
    async () => (await import(/* webpackChunkName: "new-season" */ "./new-season/new-season-part")).newSeasonPart,
  ),
  lazyPart(
    "own-sheet",
    () => texts.ownSheetTitle,
    async () => (await import(/* webpackChunkName: "own-sheet" */ "./own-sheet/own-sheet-part")).ownSheetPart,
  ),
  lazyPart(
    "tempo",
    () => texts.tempoTitle,
    async () => (await import(/* webpackChunkName: "tempo" */ "./tempo/tempo-part")).tempoPart,
  ),
  lazyPart(
    "hand-out",
    () => texts.handOutTitle,
    async () => (await import(/* webpackChunkName: "hand-out" */ "./hand-out/hand-out-part")).handOutPart,
  ),
  lazyPart(
    "functions",
    () => texts.functionsTitle,
    async () => (await import(/* webpackChunkName: "functions-help" */ "./functions/functions-all")).functionsPart,
  ),
];
