/** The words of filling in a function and inserting it, in English. */
export const fillInTexts = {
  fillIn: "Fill in and insert",
  fillInOf: (id: string) => `Fill in and insert ${id}`,
  fillInHint:
    "Type a value, or select cells on the sheet and take them. Enter in an empty field takes the selection, too.",
  fillInTake: "Take the selection",
  fillInTakeFor: (field: string) => `Take the selection for ${field}`,
  fillInTaken: (field: string, cells: string) => `${field}: ${cells}.`,
  fillInTarget: "Goes into",
  fillInTargetHint: "One empty cell. A long answer fills the cells below and beside it.",
  fillInInsert: "Insert",
  fillInFormula: "Formula",
  argumentMissing: "This one is needed: type a value, or take cells.",
  argumentOneCell: (cells: string) => `Takes one value: select a single cell instead of ${cells}.`,
  argumentHoldsTarget: (target: string) =>
    `These cells hold ${target}, into which the formula goes. Choose other cells.`,
  argumentQuotes: "A quotation mark is open: close it, or take it out.",
  targetNotOne: "Type the address of one cell, such as B5, or take it from the sheet.",
  targetOccupied: (address: string) => `${address} holds something already. Replace it?`,
  targetReplace: "Replace it",
  targetKeep: "Keep it",
  targetKept: "Nothing was changed. Choose another cell.",
  selectionNotRead: (reason: string) => `The selection could not be taken. ${reason}`,
};
