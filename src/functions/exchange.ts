/** Cell functions: exchanges of duos and teams. Each is only its face in the sheet; the work is done in `src/core`. */
import { PairLog } from "../core/pair-board";
import { read } from "./arguments";
import { respond, type Cells } from "./errors";
import { answerFrom, blanks, leftOutRows, MOST_TOLD, NOT_COUNTED, readExchanges } from "./log-ranges";
import { placesOf } from "./places";

/**
 * Who throws to whom, and how much of it is caught.
 * @customfunction PAIRBOARD
 * @requiresParameterAddresses
 * @param throwers Who throws, one column of names; initials are enough.
 * @param catchers Who catches, one column with as many rows. At most 100 different ones.
 * @param marks The marks, one or more columns with as many rows: runs such as ccdcc, single marks, or tallies such as 8/10.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each thrower, A to Z: the thrower, then for each catcher, A to Z, the share caught and the attempts, empty where the two never exchanged. Below them a row "Not counted" for each row that cannot be read, the first 20, with the place and the reason in one cell beside it.
 * @throws #VALUE! for ranges of different length, a key that cannot be read, or more than 100 different catchers, or one with a name of more than 255 characters; #N/A when nothing is logged yet.
 * @example =TWIRL.PAIRBOARD({"A.K.";"A.K.";"M.K."},{"M.K.";"R.S.";"A.K."},{"9/10";"6/10";"8/10"}) shows 0.9 from A.K. to M.K. and 0.6 to R.S.
 * @source Plain shares of the attempts logged; common practice, no source.
 */
export function pairboard(
  throwers: any[][],
  catchers: any[][],
  marks: any[][],
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  // Rows that are left out are told by the columns of a log.
  const places = placesOf(invocation, ["athletes", "tricks", "marks"]);
  return respond(
    (): Cells => {
      const given = read({ key });
      const log = new PairLog();
      const reading = readExchanges({ throwers, catchers, marks }, given.key, MOST_TOLD, (thrower, catcher, row) =>
        log.add(thrower, catcher, row),
      );
      const board = answerFrom(reading, places, () => log.board());
      const headings = ["Thrower", ...board.catchers.flatMap((catcher) => [catcher, `${catcher} attempts`])];
      return [
        headings,
        ...board.rows.map(({ thrower, pairs }) => [
          thrower,
          ...pairs.flatMap((pair): (string | number)[] =>
            pair ? [pair.caught / pair.attempts, pair.attempts] : blanks(2),
          ),
        ]),
        ...leftOutRows(reading, places, (place, words) => [
          NOT_COUNTED,
          `${place}: ${words}`,
          ...blanks(headings.length - 2),
        ]),
      ];
    },
    placesOf(invocation, ["throwers", "catchers", "marks"]),
  );
}
