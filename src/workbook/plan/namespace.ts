/** How a call of one of our functions is written: `TWIRL.READINESS(` in a cell, `_xldudf_TWIRL_READINESS(` in a file. */
export const NAMESPACE = "TWIRL";

/** Before the id of a function. */
export const CELL_NAMESPACE = `${NAMESPACE}.`;
export const FILE_NAMESPACE = `_xldudf_${NAMESPACE}_`;
