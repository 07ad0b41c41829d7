import { themeFor } from "../../../src/taskpane/frame/theme";

test.each([
  { background: "#FFFFFF", expected: "light", because: "white" },
  { background: "#E6E6E6", expected: "light", because: "a light grey" },
  { background: "000000", expected: "dark", because: "black, without the sign" },
  { background: "#262626", expected: "dark", because: "a dark grey" },
  { background: "#262626FF", expected: "dark", because: "with an alpha" },
  { background: "#FFFF00", expected: "light", because: "yellow is bright" },
  { background: "#0000FF", expected: "dark", because: "blue is not" },
  { background: "", expected: null, because: "the host said nothing" },
  { background: "black", expected: null, because: "a name is not what the host gives" },
])("$background: $because", ({ background, expected }) => {
  expect(themeFor(background)).toBe(expected);
});
