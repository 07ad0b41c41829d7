/**
 * The try-out page. The pane is small and there at once; the workbook beside it, with the open-source grid, is some fifty
 * times as large and comes after it.
 */
import { mountPane } from "../taskpane/frame/pane";
import { lastWorkbookName } from "./files/kept-workbook";
import { byId, showFailure, showState } from "./page-state";
import { waitingHost } from "./waiting-host";

/** The season that the page opens with where no workbook was open before. */
const SAMPLE = "season.xlsx";

showState("loading");
const opening = import(/* webpackChunkName: "workbook" */ "./page-workbook").then(({ openWorkbook }) =>
  openWorkbook(SAMPLE),
);
mountPane(byId("pane"), waitingHost(opening, lastWorkbookName() ?? SAMPLE));
// For a bench that looks how long it took.
performance.mark("pane-there");
opening.catch(showFailure);
