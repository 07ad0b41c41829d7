import { numberOf, readCommand } from "../../src/tools/command-line";

const command = {
  usage: "npm run thing -- [--port 5000] [--fast]",
  options: { port: { type: "string" }, fast: { type: "boolean", default: false } },
} as const;

test("options are read in either way of writing them", () => {
  expect(readCommand(["--port", "5000", "--fast"], command).values).toEqual({ port: "5000", fast: true });
  expect(readCommand(["--port=5000"], command).values).toEqual({ port: "5000", fast: false });
  expect(readCommand(["a", "b"], { ...command, takesWords: true }).positionals).toEqual(["a", "b"]);
});

test.each([
  [["--slow"], "--slow is not known."],
  [["thing"], "thing is not known."],
  [["--port"], "--port needs a value."],
  [["--port", "--fast"], "--port needs a value."],
  [["--fast=yes"], "--fast takes no value."],
])("%j is refused in words, with how the command is written", (words, reason) => {
  expect(() => readCommand(words, command)).toThrow(`${reason}\n${command.usage}`);
});

test.each([
  [undefined, 7],
  ["1", 1],
  ["65535", 65535],
])("the number %p is read", (value, number) => {
  expect(numberOf("--port", value, { otherwise: 7, most: 65_535 })).toBe(number);
});

test.each(["0", "65536", "1.5", "", "many"])("the number %p is refused", (value) => {
  expect(() => numberOf("--port", value, { otherwise: 7, most: 65_535 })).toThrow(
    `--port takes a whole number from 1 to 65535, not ${value}.`,
  );
});
