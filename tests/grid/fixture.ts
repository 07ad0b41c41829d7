/**
 * A tiny set of built functions in the shape that the build writes, to hold the binding to its word without the real
 * functions: each answers what it was given, so that a test sees what arrived.
 */
import type { FunctionsMetadata } from "../../src/grid/engine/custom-functions";

const matrix = (name: string, optional = false) => ({
  name,
  description: `The cells of ${name}`,
  type: "any",
  dimensionality: "matrix",
  ...(optional ? { optional: true } : {}),
});
const scalar = (name: string, type: string, optional = false) => ({
  name,
  description: `One ${name}`,
  type,
  ...(optional ? { optional: true } : {}),
});

export const fixtureMetadata: FunctionsMetadata = {
  allowErrorForDataTypeAny: true,
  functions: [
    { id: "SHOW", name: "SHOW", parameters: [matrix("cells")], result: { type: "string" } },
    { id: "SHOWONE", name: "SHOWONE", parameters: [scalar("value", "any", true)], result: { type: "string" } },
    {
      id: "SHOWTHREE",
      name: "SHOWTHREE",
      parameters: [scalar("first", "any"), scalar("second", "any", true), scalar("third", "any", true)],
      result: { type: "string" },
    },
    { id: "ADDONE", name: "ADDONE", parameters: [scalar("number", "number")], result: { type: "number" } },
    {
      id: "TALLY",
      name: "TALLY",
      description: "Counts each mark",
      parameters: [matrix("marks")],
      result: { type: "any", dimensionality: "matrix" },
    },
    { id: "ANSWER", name: "ANSWER", parameters: [scalar("kind", "string")], result: { type: "any" } },
    { id: "HOWMANY", name: "HOWMANY", parameters: [matrix("cells")], result: { type: "number" } },
  ],
};

export const fixtureScript = `
(() => {
  const word = (value) =>
    value && typeof value === "object" && "code" in value ? "error " + value.code : JSON.stringify(value);
  const show = (value) => (Array.isArray(value) ? "[" + value.map(show).join(",") + "]" : word(value));
  CustomFunctions.associate("SHOW", (cells) => show(cells));
  CustomFunctions.associate("SHOWONE", (value) => show(value));
  CustomFunctions.associate("SHOWTHREE", (first, second, third) => show([first, second, third]));
  CustomFunctions.associate("ADDONE", (number) => number + 1);
  CustomFunctions.associate("HOWMANY", (cells) => cells.flat().filter((value) => value !== 0 && value !== null).length);
  CustomFunctions.associate("TALLY", (marks) => {
    const counts = new Map();
    for (const row of marks) for (const mark of row) {
      if (mark === null || mark === 0 || mark === "") continue;
      if (mark === "x") {
        throw new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, "marks: x is not read. Type c or d.");
      }
      counts.set(mark, (counts.get(mark) || 0) + 1);
    }
    if (counts.size === 0) throw new CustomFunctions.Error(CustomFunctions.ErrorCode.notAvailable, "No attempts yet.");
    return [["Mark", "Count"], ...[...counts].sort()];
  });
  CustomFunctions.associate("ANSWER", (kind) => {
    switch (kind) {
      case "text number": return "0110";
      case "text error": return "#VALUE!";
      case "truth": return true;
      case "nothing": return null;
      case "not a number": return NaN;
      case "endless": return [[1 / 0, 2]];
      case "crash": return undefined.length;
      case "throw text": throw "plain text";
      case "ragged": return [[1, 2], [3]];
      case "empty block": return [];
      case "object": return { a: 1 };
      case "division": throw new CustomFunctions.Error(CustomFunctions.ErrorCode.divisionByZero, "never shown");
      case "error in block": return [["a", new CustomFunctions.Error("#N/A", "Nothing for b yet.")], ["c", ""]];
      case "block": return [["a", 1, true, "8/10"], ["", 0, false, "0110"]];
      default: return kind;
    }
  });
})();
`;
