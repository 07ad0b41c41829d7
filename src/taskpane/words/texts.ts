/**
 * Every word that the pane shows, in English; `french/` has the same in French, fetched where it is chosen. Sentences
 * with a value in them are functions, so that each language can put the value where it belongs.
 */
import { reasonInWords } from "../../core/advice";
import type { SettingsProblem } from "../../workbook/season/season";
import { fillInTexts } from "./english/fill-in";
import { firstStepsTexts } from "./english/first-steps";
import { pictureTexts } from "./english/pictures";

export const english = {
  ...fillInTexts,
  ...firstStepsTexts,
  ...pictureTexts,
  /** How days and decimals are written. */
  locale: "en-GB",
  product: "Twirl Ledger",
  partsLabel: "Parts of Twirl Ledger",
  outside:
    "This page is the Twirl Ledger pane: it works inside the spreadsheet program, where the Twirl Ledger button on the Home tab opens it.",
  optional: "optional",
  languageLabel: "Language",
  languageMissing: "The words of this language could not be loaded. Try again.",

  notADay: (typed: string) => `“${typed}” is not a day.`,
  dayExample: (numbers: string, short: string, full: string) =>
    `Today, for example, can be typed as ${numbers}, ${short} or ${full}.`,
  otherWeekday: (day: string, weekday: string) =>
    `${day} is a ${weekday}. Correct the day or the day of the week, or leave the day of the week out.`,
  pastedNoDays: (count: number, cells: string) =>
    `${count === 1 ? "1 pasted cell is not a day and stays as text" : `${String(count)} pasted cells are not days and stay as text`}: ${cells}.`,

  tryAgain: "Try again",

  logSetTitle: "Log a set",
  dockLabel: "The set",
  seasonLabel: "Season",
  athleteLabel: "Athlete",
  trickLabel: "Trick",
  stageLabel: "Stage",
  minutesAndNote: "Day, minutes, way, note",
  dayLabel: "Day, if not today",
  wayLabels: { entrance: "Entrance", exit: "Exit", condition: "Condition" },
  columnsLacking: "This log has no columns yet for Entrance, Exit and Condition.",
  addColumns: "Add the three columns",
  columnsAdded: "The log has the columns Entrance, Exit and Condition now; nothing else has changed.",
  columnsNotAdded: (reason: string) => `The columns were not added. ${reason}`,
  columnLacking: "This log has no such column yet: add the columns, or leave this empty.",
  minutesLabel: "Minutes",
  noteLabel: "Note",
  optionsFound: (count: number) =>
    count === 0 ? "Nothing in the list fits." : count === 1 ? "1 in the list." : `${String(count)} in the list.`,
  markWords: { c: "Caught", d: "Dropped", b: "Bailed" },
  undo: "Undo",
  putAside: "Put aside",
  saveSet: "Save the set",
  saving: "Saving…",
  lookInLog: "Look in the log",
  setCount: (count: number, size: number | null) =>
    size === null
      ? String(count)
      : count < size
        ? `${String(count)} of ${String(size)}`
        : `${String(count)} of ${String(size)}: full`,
  setInWords: (caught: number, dropped: number, bailed: number) =>
    `${String(caught)} caught, ${String(dropped)} dropped, ${String(bailed)} bailed.`,
  counted: (mark: string, count: number, size: number | null, status: string | null) =>
    [
      `${mark}.`,
      size === null ? `${String(count)}.` : `${String(count)} of ${String(size)}.`,
      ...(status === null ? [] : [`${status}.`]),
    ].join(" "),
  undone: (mark: string, count: number, size: number | null) =>
    `${mark} taken back. ${String(count)}${size === null ? "" : ` of ${String(size)}`}.`,
  nothingToUndo: "Nothing to take back.",
  reasonInWords,
  statusWas: (status: string) => `was ${status}`,
  streakNow: (streak: number) =>
    streak > 0 ? `streak ${String(streak)}` : streak < 0 ? `${String(-streak)} missed in a row` : "no streak",
  streakUnknown: "streak not known: the log ends with a total",
  apartStreak: (streak: string) => `stays: this stage is practised apart · ${streak} in this set`,
  rowsNotCounted: (rows: number, of: number) =>
    `${String(rows)} of ${String(of)} rows of the log ${rows === 1 ? "does" : "do"} not count`,
  moreNotCounted: (rows: number) => `and ${String(rows)} more`,
  laterDays: (day: string) =>
    `This trick is logged on a later day already (${day}): days count, so this set stands before that.`,
  statusUnavailable: "The status cannot be worked out at the moment. Count on: nothing is lost.",
  statusNeedsChoice: "Choose athlete and trick to see the status.",
  readingWorkbook: "Reading the workbook…",
  bailCaution:
    "Two bails: stop here. Do not push repetitions; go back a stage until it feels safe. Dizzy, in pain or struck: no more today, and a doctor’s word comes first.",
  marksGoAlong: (count: number, athlete: string, trick: string) =>
    `${count === 1 ? "The mark" : `The ${String(count)} marks`} in hand now ${count === 1 ? "counts" : "count"} for ${athlete === "" ? "no athlete" : athlete}, ${trick === "" ? "no trick" : trick}.`,
  setRestored: (count: number) =>
    count === 1
      ? "1 mark that was not saved is here again."
      : `${String(count)} marks that were not saved are here again.`,
  notAnAthlete: (name: string) =>
    name === ""
      ? "Choose an athlete."
      : `“${name}” is not in the season’s list of athletes. Choose from the list, or add the name on the Season sheet first.`,
  notATrick: (name: string) =>
    name === ""
      ? "Choose a trick."
      : `“${name}” is not in the season’s list of tricks. Choose from the list, or add the name on the Tricks sheet first.`,
  chooseStage: "Choose a stage.",
  noMarksYet: "There is no mark to save yet: press Caught, Dropped or Bailed.",
  notMinutes: (most: number) => `Type minutes from 0 to ${String(most)}, or leave them out.`,
  seasonGone: (season: string) => `Season ${season} is not in this workbook. Choose another, or open its workbook.`,
  notReadYet: "The workbook has not been read yet. The set is kept: save it in a moment.",
  waitForSaving: "Wait: the set is being saved.",
  firstFindOut: "First find out whether this set is in the log, or put it aside.",
  savingSet: "Saving the set…",
  lookingInLog: "Looking in the log…",
  setSaved: (athlete: string, trick: string, marks: string, address: string | null) =>
    `Saved: ${athlete}, ${trick}, ${marks}${address === null ? "" : `, in ${address}`}.`,
  notSaved: (reason: string) => `Not saved; the set is still here. ${reason}`,
  saveUnanswered: "The workbook does not answer. The set is kept. Look in the log before anything else.",
  saveUnclear: (reason: string) => `Whether the set is in the log could not be seen; it is kept. ${reason}`,
  notInLogYet: "It is not in the log so far, and the workbook has not answered yet. Look again in a moment.",
  notInLog: "It is not in the log. Save it again.",
  workbookChanged: "Another workbook has been opened in its place.",
  hostSilent: "The workbook does not answer.",
  workbookNotRead: (reason: string) =>
    `The workbook could not be read: ${reason} You can count all the same, and save later.`,
  noSeason: "There is no season in this workbook yet.",
  noSeasonNext: "Build one first: athletes, tricks and a log come with it. Then a set is logged here.",
  goToNewSeason: "Build a season",
  noAthletes: "The Season sheet lists no athletes: add one there first.",
  noTricks: "The Tricks sheet lists no tricks: add one there first.",
  usualSettings: (setSize: number) =>
    `The Season sheet’s standard and set size could not be read: 80 % and sets of ${String(setSize)} stand in for them.`,
  keepsNothing: "This computer keeps nothing for this pane: save the set before you close it.",
  ofAnotherDay: (day: string) => `These marks are of ${day}, and will be logged under that day.`,
  asideTitle: "Sets not saved yet",
  asideSet: (athlete: string, trick: string, marks: string) =>
    `${athlete === "" ? "No athlete" : athlete}, ${trick === "" ? "no trick" : trick}: ${marks === "" ? "no marks" : marks}`,
  fromWorkbook: (name: string) => `Counted in ${name}.`,
  takeUp: "Take up",
  takeUpOf: (set: string) => `Take up: ${set}`,
  throwAway: "Throw away",
  throwAwayOf: (set: string) => `Throw away: ${set}`,
  throwAwaySure: "Really throw away",
  throwAwaySureOf: (set: string) => `Really throw away: ${set}`,
  setTakenUp: (athlete: string, trick: string, count: number) =>
    `Taken up: ${athlete}, ${trick}, ${count === 1 ? "1 mark" : `${String(count)} marks`}.`,
  setThrownAway: "Thrown away.",
  setGone: "That set is no longer kept: it was saved or thrown away elsewhere.",

  newSeasonTitle: "New season",
  newSeasonIntro: "Adds the sheets of a season to this workbook. Sheets that are there already stay as they are.",
  labelLabel: "Season label",
  labelHint: "Such as 2027. Each new sheet’s name ends in it.",
  contestDateLabel: "Contest date",
  contestDateHint: "The contest that the season works towards, such as 5 June 2027.",
  athletesLabel: "Athletes, one a line",
  athletesHint: "Initials are enough. Leave out birth dates and anything medical.",
  tricksLabel: "Tricks, one a line",
  tricksHint: "Body counts after a comma, if you know them: Double turn, 4",
  standardsGroup: "When a trick counts as reliable",
  standardLabel: "Catch standard, %",
  standardHint: "Share caught in a set. 80 is the usual rule.",
  setSizeLabel: "Set size, attempts",
  setSizeHint: "How many attempts make a set. Usually 10.",
  tossGroup: "Toss and routine",
  countsPerMinuteLabel: "Counts a minute",
  countsPerMinuteHint: "As the athletes say them: often faster than the music’s beat.",
  unitLabel: "Lengths in",
  unitHint: "For this season’s ceiling and tosses.",
  unitMetres: "metres",
  unitFeet: "feet",
  ceilingLabel: "Ceiling height",
  ceilingHint: "Of the hall you practise in, floor to the lowest lamp.",
  dropCostLabel: "Points lost for a drop",
  dropCostHint: "As your rule set has it this year.",
  togetherGroup: "Duos and teams",
  exchangesLabel: "With sheets for exchanges and for the team",
  exchangesHint: "Who throws to whom, and how likely all of a team catch.",
  buildSeason: "Build the season",
  clearForm: "Clear the form",
  formCleared: "The form is back to its usual values.",
  draftNote: "What you type is kept on this computer until the season is built, and sent nowhere.",

  problemsFound: (count: number) =>
    count === 1 ? "One field needs a change." : `${String(count)} fields need a change.`,
  checkingNames: "Looking at the names in this workbook…",
  buildingSeason: "Building the season…",
  buildingSheet: (sheet: string, done: number, of: number) =>
    `Building the season… ${sheet}, sheet ${String(done)} of ${String(of)}.`,
  seasonBuilt: (label: string) => `Season ${label} is built. These sheets are new:`,
  seasonBuiltNext: "Log the first set on the Practice sheet.",
  seasonFailed: "The season was not built.",
  nothingLeftBehind: "Nothing was left behind in the workbook. Your form is still here.",
  leftBehind: "These could not be taken out again. Delete them by hand before you try again:",
  leftBehindUnknown:
    "The workbook could not be checked afterwards: look for new sheets and delete them before you try again.",
  unknownCause: "The spreadsheet program gave no reason.",

  settingsProblem: ({ message }: SettingsProblem) => message,
  standardProblem: (leastPercent: number, mostPercent: number) =>
    `Type a percentage from ${String(leastPercent)} to ${String(mostPercent)}, such as 80. No number of catches proves 100 %.`,

  tempoTitle: "Tempo",
  countsTitle: "Counts per minute",
  countsHint: "Press once for each count as the athlete says it, by finger, mouse, Space or Enter.",
  tap: "Tap the counts",
  tapHint: "Tap at least four counts.",
  tapOn: (taps: number) => (taps === 1 ? "1 tap: go on." : `${String(taps)} taps: go on.`),
  tempoIs: (counts: string, intervals: number, outliers: number) =>
    `${counts} counts a minute, from ${String(intervals)} intervals${outliers === 0 ? "" : `; ${String(outliers)} left aside as a missed or double tap`}.`,
  startAgain: "Start again",
  insertCounts: "Insert counts",
  countsInserted: (value: string, address: string) => `${value} counts a minute are in ${address}.`,
  heightsIn: "Heights in",
  handTitle: "Airtime by hand",
  handHint: "Press as the baton leaves the hand, hold, and let go as it is caught. Several tosses make it more exact.",
  hold: "Hold from release to catch",
  inTheAir: "In the air…",
  holdHint: "Nothing timed yet.",
  holdsTaken: (last: string, tosses: number) =>
    tosses === 1 ? "One toss; a hand is off by 0.10 s or so." : `Mean of ${String(tosses)} tosses, the last ${last} s.`,
  notAToss: "Too short or too long for a toss: not counted.",
  holdAbandoned: "The press was broken off: not counted.",
  takeBack: "Take the last back",
  filmTitle: "Airtime from film",
  filmExplained:
    "Step through the film: the first frame in which the hand has let go, and the first in which it holds again.",
  releaseFrameLabel: "Release frame",
  catchFrameLabel: "Catch frame",
  frameRateLabel: "Frames per second of the film",
  filmHint: "Type both frames and the film’s frames per second.",
  notInRange: (least: number, most: number) => `Type a number from ${String(least)} to ${String(most)}.`,
  catchAfterRelease: "The catch comes after the release.",
  plusMinus: (value: string, uncertainty: string) => `${value} ± ${uncertainty}`,
  airtimeIs: (seconds: string, rise: string, unit: string) =>
    `${seconds} s in the air: rises ${rise} ${unit} above the hand.`,
  plusMinusMeaning:
    "± is one standard uncertainty: the true value lies within it about two times in three. Measure the ceiling and its lights before a higher toss.",
  insertAirtime: "Insert airtime",
  insertRise: "Insert height",
  airtimeInserted: (value: string, address: string) => `${value} s are in ${address}.`,
  riseInserted: (value: string, address: string) => `The height ${value} is in ${address}.`,
  nothingMeasured: "Nothing is measured yet.",

  handOutTitle: "Hand-out",
  handOutIntro:
    "One athlete’s page for the wall or the family, on a sheet of its own: tricks, words, last sets, next steps, and one trick day by day. It holds nobody else’s record and compares nobody.",
  handOutAthlete: "Whose page",
  handOutAthleteHint: "The sheet follows the log, so it can be printed again later.",
  handOutOf: (athlete: string, label: string) => `${athlete}, season ${label}`,
  handOutMake: "Make the page",
  handOutMakeAll: "Make everybody’s pages",
  handOutMaking: "Making the page…",
  handOutMade: (sheet: string) => `${sheet} is made and shown. Print that sheet, or save it as a PDF when printing.`,
  handOutMadeAll: (made: number, there: number) =>
    `${made === 0 ? "No page had to be made" : made === 1 ? "1 page is made" : `${String(made)} pages are made`}${there === 0 ? "" : `, ${String(there)} ${there === 1 ? "was" : "were"} there already`}. Each is a sheet of its own.`,
  handOutPrintAll: (pages: number) => (pages === 1 ? "Print this page" : `Print these ${String(pages)} pages`),
  handOutPrintAllHint:
    "To print them all: click the tab of the first page, hold Shift, click the tab of the last, and print.",
  handOutFailed: (reason: string) => `The page was not made. ${reason}`,
  handOutNotPrinted: (reason: string) => `The pages were not printed. ${reason}`,
  handOutNothing: "There is no season with athletes in this workbook yet. Build one first, under New season.",
  handOutNotRead: (reason: string) => `The workbook could not be read. ${reason}`,
  handOutCare:
    "Hand out the printed page, not the workbook: that holds everybody’s record. Ask the family first where athletes are minors.",

  gymTitle: "Gym sheet",
  gymIntro:
    "A blank log of one practice to print: everybody’s planned tricks with boxes for each set. Afterwards type the marks over the boxes, one cell a set, and take them into the log.",
  gymMinutes: "Minutes for each athlete",
  gymMinutesHint:
    "They become sets by each athlete’s own pace: what is short of the standard and in the routine first.",
  gymMake: "Make the gym sheet",
  gymSheet: "Filled in",
  gymTake: "Take into the log",
  gymMade: (sheet: string) => `${sheet} is made and shown. Print that sheet; its day can be typed over.`,
  gymNotMade: (reason: string) => `The gym sheet was not made. ${reason}`,
  gymFaults: (cells: number) =>
    `Nothing was logged: ${cells === 1 ? "1 cell" : `${String(cells)} cells`} cannot be read. Type ${cells === 1 ? "it" : "them"} again, then press once more.`,
  gymMoreFaults: (more: number) => `and ${String(more)} more`,
  gymNothing: (sheet: string) => `No marks stand on ${sheet} yet: type them over the boxes.`,
  gymTaken: (logged: number, before: number) =>
    [
      logged === 1 ? "1 set is in the log." : `${String(logged)} sets are in the log.`,
      ...(before === 0 ? [] : [`${before === 1 ? "1 was" : `${String(before)} were`} there already.`]),
    ].join(" "),
  gymStopped: (logged: number, of: number, reason: string) =>
    `${String(logged)} of ${String(of)} sets are in the log, then it stopped: ${reason} Press again for the others.`,
  gymNotTaken: (reason: string) => `Not all was taken into the log. ${reason}`,

  partComing: "One moment…",
  partMissing: "This part could not be loaded. Open another part, then this one again.",
  ownSheetTitle: "Use my sheet",
  ownSheetIntro:
    "For a log that you keep in your own way. Puts a board over it on a new sheet; no cell of yours is changed.",
  ownSheetRead: "Read the selected log",
  ownSheetReadHint: "Select a cell of your log first, or its headings and rows.",
  ownSheetReading: "Reading the log…",
  ownSheetReadingRows: (rows: number, of: number) => `Reading the log… row ${String(rows)} of ${String(of)}.`,
  ownSheetNotRead: "The log was not read.",
  ownSheetStale: "The sheet has changed since the log was read. Read it again to see what it holds now.",
  nothingToRead: "Nothing was found there. Select a cell of your log, then try again.",
  markInSheetName: (sheet: string) =>
    `Formulas cannot read the sheet ${sheet} here, since its name holds an exclamation mark: rename it, then try again.`,
  sheetGone: (sheet: string) => `The sheet ${sheet} is not there any more.`,
  ownSheetWhere: (sheet: string, first: number, last: number) =>
    `On ${sheet}, rows ${String(first)} to ${String(last)}.`,
  ownSheetTable: (sheet: string, table: string) => `On ${sheet}, the table ${table}.`,
  ownSheetHeadingRow: "Headings",
  ownSheetNoHeadings: "There are none",
  ownSheetRowNumber: (row: number, words: string) => `Row ${String(row)}: ${words}`,
  ownSheetColumns: "Which column is which",
  ownSheetDate: "Day",
  ownSheetAttempts: "Attempts are written as",
  ownSheetMarks: "marks, such as ccdcc or 8/10",
  ownSheetManyMarks: "one attempt or set a column",
  ownSheetCaughtAttempts: "numbers: caught and tried",
  ownSheetCaughtDropped: "numbers: caught and dropped",
  ownSheetAttemptsDropped: "numbers: tried and dropped",
  ownSheetMarksColumn: "Marks",
  ownSheetFirstMarks: "First of these columns",
  ownSheetLastMarks: "Last of these columns",
  ownSheetCaught: "Caught",
  ownSheetTried: "Tried",
  ownSheetDropped: "Dropped",
  ownSheetNoColumn: "No column",
  ownSheetChoose: "Choose a column",
  ownSheetOneForAll: "The same in every row…",
  ownSheetAthleteForAll: "Athlete of every row",
  ownSheetTrickForAll: "Trick of every row",
  ownSheetByHeading: "Found by its heading.",
  ownSheetByValues: "Found by what stands in it.",
  ownSheetByBoth: "Found by its heading and what stands in it.",
  ownSheetUnsure: "Please check.",
  ownSheetCorrected: "You chose it.",
  ownSheetNotFound: "Not found.",
  ownSheetReadAs: "How it is read",
  ownSheetTextDays: "Days that are written as text",
  ownSheetTextDaysHint: (count: number, bothWays: number) =>
    bothWays > 0
      ? `${String(count)} in the column of days, of which ${String(bothWays)} read as two different days: say which is meant.`
      : `${count === 1 ? "1 cell" : `${String(count)} cells`} in the column of days.`,
  ownSheetTextDaysLeave: "leave them out",
  ownSheetDayFirst: (separator: string) => `day first: 31${separator}12${separator}2026`,
  ownSheetMonthFirst: (separator: string) => `month first: 12${separator}31${separator}2026`,
  ownSheetYearFirst: (separator: string) => `year first: 2026${separator}12${separator}31`,
  ownSheetMonthInWords: "with the month in words",
  ownSheetFilledDown: "An empty cell means what stands above it",
  ownSheetKey: "What your marks mean",
  ownSheetKeyHint: (signs: string) => `Your log has ${signs}.`,
  ownSheetSignCount: (sign: string, count: number) => `${sign} (${String(count)} times)`,
  ownSheetKeyTwo: (caught: string, dropped: string) => `${caught} caught, ${dropped} dropped`,
  ownSheetKeyThree: (caught: string, dropped: string, bailed: string) =>
    `${caught} caught, ${dropped} dropped, ${bailed} bailed`,
  ownSheetKeyUsual: "none of these: c, d and b as usual",
  ownSheetStagesApart: "Practised apart, not counted",
  ownSheetStageCount: (stage: string, count: number) => `${stage} (${String(count)} rows)`,
  ownSheetUnreadable: "Cells that cannot be read",
  ownSheetRows: (entries: number, readable: number) =>
    entries === readable
      ? `All ${String(entries)} rows can be read.`
      : `${String(readable)} of ${String(entries)} rows can be read. The others are left out until you mend them:`,
  ownSheetNoRows: "No row of a log was found with these columns.",
  ownSheetFirstOnly: (listed: number, count: number) => `The first ${String(listed)} of ${String(count)} cells:`,
  ownSheetTurned: (count: number) =>
    `${count === 1 ? "1 cell of marks holds a date" : `${String(count)} cells of marks hold a date`}: the spreadsheet has taken a tally such as 8/10 for one. Format the column as text and type it again.`,
  ownSheetTurnedDays: (count: number) =>
    `${String(count)} days may be turned round: all that are dates fall on the 1st to 12th. The spreadsheet seems to have read the month first where the day was meant, or the other way round. Type these days again, such as 2026-10-06; until then they count as they stand.`,
  ownSheetDoubtfulDay: (shown: string) => `Shows ${shown}. Day and month may be turned round.`,
  ownSheetUnknownMarks: (words: string) => `Left out as no marks: ${words}. The list stands on the new sheet.`,
  ownSheetCellGoTo: (address: string) => `Go to ${address}`,
  ownSheetCellProblem: (found: string, accepted: string) => `Found ${found}. Would be read: ${accepted}.`,
  ownSheetPut: "Put the board",
  ownSheetPutting: "Putting the board…",
  ownSheetMissing: (roles: string) => `Still to choose: ${roles}.`,
  ownSheetKeyMissing: "Say what your marks mean first.",
  ownSheetQuestionOpen: "Answer the open question first: your log can be read in several ways.",
  ownSheetColumnsOpen: (roles: string) => `Look at these columns first, and say that they are right: ${roles}.`,
  ownSheetNothingRead: (entries: number) =>
    `None of the ${String(entries)} rows can be read with these choices, so the board would be empty. What is wrong is listed above.`,
  ownSheetNotThere: (sheet: string) => `The new sheet ${sheet} cannot be found in the workbook.`,
  ownSheetOtherWorkbook: "Another workbook is open now. Read its log before you put a board over it.",
  ownSheetNotAllFound: (roles: string) =>
    `Nothing can be read yet: it is not known where these stand: ${roles}. Choose them above.`,
  ownSheetUnused: (columns: string) => `Not used: ${columns}. What stands there is not counted.`,
  ownSheetEndsAt: (row: number) =>
    `Another list begins in row ${String(row)}: nothing is read from there on. Put new rows of the log in above it.`,
  ownSheetSummary: (
    caught: number,
    attempts: number,
    rows: number,
    athletes: number,
    tricks: number,
    first: string,
    last: string,
  ) =>
    `The board will count ${String(caught)} caught of ${String(attempts)} attempts in ${String(rows)} rows; athletes: ${String(athletes)}, tricks: ${String(tricks)}, days from ${first} to ${last}.`,
  ownSheetBailed: "Bailed",
  ownSheetNamesOver: (names: string) => `alone in a row over its block: ${names}`,
  ownSheetUnsureColumns: (roles: string) =>
    `These columns could as well be others: ${roles}. Compare them with your log, and correct them if need be.`,
  ownSheetConfirm: "The columns are right",
  ownSheetBlank: "What an empty cell means",
  ownSheetLoneHint: (sign: string, marked: number, empty: number) =>
    `Your log has ${sign} in ${marked === 1 ? "1 cell" : `${String(marked)} cells`}; empty beside them: ${String(empty)}.`,
  ownSheetBlankHint: (marked: number, empty: number) =>
    `Marks: ${String(marked)}; empty cells beside them: ${String(empty)}.`,
  ownSheetEmptyCaught: (width: number) =>
    width === 1 ? "an empty cell is caught" : `an empty cell is caught: every row has ${String(width)} attempts`,
  ownSheetEmptyDropped: (width: number) =>
    width === 1 ? "an empty cell is dropped" : `an empty cell is dropped: every row has ${String(width)} attempts`,
  ownSheetEmptyNone: "an empty cell is no attempt",
  ownSheetSignCaught: (sign: string) => `${sign} caught`,
  ownSheetSignDropped: (sign: string) => `${sign} dropped`,
  ownSheetTally: "What your tallies mean",
  ownSheetTallyHint: (examples: string) => `Your log has ${examples}.`,
  ownSheetPartCaught: "caught",
  ownSheetPartTried: "tried",
  ownSheetPartDropped: "dropped",
  ownSheetTallyRead: (tally: string, caught: number, attempts: number) =>
    `${tally} is ${String(caught)} caught of ${String(attempts)}`,
  ownSheetTurnedTallies: "Tallies that became dates",
  ownSheetTurnedRead: (shown: string, tally: string) => `${shown} is ${tally}`,
  ownSheetSums: "Rows that add others up, not counted",
  ownSheetDone: (sheet: string) => `The board is on the new sheet ${sheet}.`,
  ownSheetDoneNext: "Rows that you add to your log count at once. The standard and the set size stand on the sheet.",
  ownSheetFailed: "The board was not put.",

  repairTitle: "When cells show #NAME?",
  repairIntro:
    "Writes such formulas again, where they call our functions, so that the workbook knows them. Nothing else is touched.",
  repairButton: "Repair formulas",
  repairWorking: "Looking through all sheets…",
  repairNone: "Every formula of ours is known: nothing to repair.",
  repairDone: (count: number) =>
    count === 1 ? "1 formula was written again and works." : `${String(count)} formulas were written again and work.`,
  repairUnknown: (count: number) =>
    `${String(count)} still show #NAME?: the functions are not loaded. Close the workbook, open it again and try once more.`,
  repairRefused: (count: number) => `${String(count)} could not be written: they belong to an array of several cells.`,
  repairProtected: (sheet: string, count: number) =>
    `${sheet} is protected and has ${String(count)}: take the protection off, then try again.`,
  repairFailed: (reason: string) => `The formulas were not repaired. ${reason}`,

  functionsTitle: "Functions",
  functionsSearch: "Find a function",
  functionsFound: (count: number) =>
    count === 0 ? "No function found." : count === 1 ? "1 function." : `${String(count)} functions.`,
  functionsNone: "Nothing fits these words. Try another, such as catch, toss or drop.",
  functionTyped: "Type it as",
  functionArguments: "Arguments",
  functionNoArguments: "None.",
  argumentCells: "cells",
  functionAnswer: "Answer",
  functionExample: "Example",
  functionExampleShows: (shows: string) => `shows ${shows}`,
  functionErrors: "Errors",
  functionSource: "Source",
  functionInsert: "Insert the example",
  functionInsertOf: (id: string) => `Insert the example of ${id}`,
  functionInsertHint: "Goes into the selected cell. A cell that holds something is left alone.",
  functionInserted: (formula: string, address: string) => `${formula} is in ${address}.`,
  functionNotInserted: (reason: string) => `Nothing was inserted. ${reason}`,

  hostBusy: "The spreadsheet program is busy: finish the cell you are typing in, then try again.",
  hostProtected: "The workbook or the sheet is protected: take the protection off, then try again.",
  hostMissing: "A sheet or a table that is needed is no longer in the workbook.",
  selectionNotOne: "Select cells that lie side by side in one block.",
  hostRefused: (reason: string) => `The spreadsheet program refused: ${reason}`,
  cellNotEmpty: (address: string) => `${address} holds something. Select an empty cell, then try again.`,
  tableLacksColumn: (table: string, heading: string) => `The table ${table} has no column called ${heading}.`,
  newWorkbook: "New workbook",
};

export type Texts = typeof english;

/** In the language that is chosen. Read when it is shown, never when a module is loaded: another choice changes it. */
export const texts: Texts = { ...english };

/** Has the pane speak another language from the next drawing on. */
export function speak(words: Texts): void {
  Object.assign(texts, words);
}
