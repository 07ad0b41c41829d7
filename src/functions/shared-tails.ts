/**
 * The pane lives on the same page, which loads these functions first. It takes the tails of the distributions from here
 * instead of bringing the numeric library along a second time; `webpack.config.js` has its bundle look for them here.
 */
import * as tails from "../core/tails";

Object.assign(globalThis, { twirlLedgerTails: { ...tails } });
