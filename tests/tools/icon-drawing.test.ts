import { readFileSync } from "node:fs";
import path from "node:path";
import { PNG } from "pngjs";
import { ICONS, rasterise, readDrawing } from "../../src/tools/icon-drawing";

const folder = path.resolve(__dirname, "../../src/taskpane/icons");
const read = (file: string): Buffer => readFileSync(path.join(folder, file));
const svg = (shapes: string): string => `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">${shapes}</svg>`;

test.each(ICONS)("icon-$pixels.png is what $source draws", ({ pixels, source }) => {
  const picture = PNG.sync.read(read(`icon-${String(pixels)}.png`));
  expect([picture.width, picture.height]).toEqual([pixels, pixels]);
  // The pixels and not the file: how tightly a file is packed differs between versions of the runtime.
  expect(rasterise(readDrawing(read(source).toString("utf8")), pixels).equals(picture.data)).toBe(true);
});

/** Share of the picture that is covered, from its alpha. */
function covered(shapes: string, pixels = 64): number {
  const bytes = rasterise(readDrawing(svg(shapes)), pixels);
  let sum = 0;
  for (let at = 3; at < bytes.length; at += 4) sum += bytes[at] ?? 0;
  return sum / 255 / pixels ** 2;
}

test.each([
  {
    shape: '<circle cx="32" cy="32" r="20" fill="#0d5b63" />',
    expected: (Math.PI * 20 ** 2) / 64 ** 2,
    because: "area of a circle",
  },
  {
    shape: '<rect x="4" y="8" width="40" height="30" rx="10" fill="#0d5b63" />',
    expected: (40 * 30 - (4 - Math.PI) * 10 ** 2) / 64 ** 2,
    because: "a rectangle less what four rounded corners leave out",
  },
  {
    shape: '<line x1="10" y1="10" x2="40" y2="50" stroke="#0d5b63" stroke-width="6" />',
    expected: (50 * 6) / 64 ** 2,
    because: "length times width: the ends are cut square",
  },
])("covers $because", ({ shape, expected }) => {
  // 64 samples a pixel: the edge is known to an eighth of a pixel, and errors along it cancel.
  expect(Math.abs(covered(shape) - expected)).toBeLessThan(0.001);
});

test("what comes later covers what came before", () => {
  const bytes = rasterise(
    readDrawing(
      svg('<circle cx="32" cy="32" r="30" fill="#ff0000" /><circle cx="32" cy="32" r="30" fill="#00ff00" />'),
    ),
    8,
  );
  expect([...bytes.subarray((3 * 8 + 3) * 4, (3 * 8 + 3) * 4 + 4)]).toEqual([0, 255, 0, 255]);
});

test.each(['<path d="M0 0h9" />', '<circle cx="1" cy="1" r="1" fill="#000000" opacity="0.5" />', '<circle r="1" />'])(
  "refuses %s instead of leaving it out",
  (shape) => {
    expect(() => readDrawing(svg(shape))).toThrow();
  },
);
