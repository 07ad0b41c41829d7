/**
 * Every word that the pane shows. A second language is a second object of this shape.
 * Sentences with a value in them are functions, so that each language can put the value where it belongs.
 */
const english = {
  product: "Twirl Ledger",
  partsLabel: "Parts of Twirl Ledger",
  outside:
    "This page is the Twirl Ledger pane: it works inside the spreadsheet program, where the Twirl Ledger button on the Home tab opens it.",
  optional: "optional",

  newSeasonTitle: "New season",
  newSeasonIntro: "Adds the sheets of a season to this workbook. Sheets that are there already stay as they are.",
  labelLabel: "Season label",
  labelHint: "Such as 2027. Each new sheet’s name ends in it.",
  contestDateLabel: "Contest date",
  contestDateHint: "The contest that the season works towards.",
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

  standardProblem: (leastPercent: number, mostPercent: number) =>
    `Type a percentage from ${String(leastPercent)} to ${String(mostPercent)}, such as 80. No number of catches proves 100 %.`,

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
  hostRefused: (reason: string) => `The spreadsheet program refused: ${reason}`,
  cellNotEmpty: (address: string) => `${address} holds something. Select an empty cell, then try again.`,
  tableLacksColumn: (table: string, heading: string) => `The table ${table} has no column called ${heading}.`,
  newWorkbook: "New workbook",
};

export type Texts = typeof english;

export const texts: Texts = english;
