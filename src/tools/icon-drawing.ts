/**
 * Draws an icon from its SVG source. The sources keep to rectangles, lines and circles in one colour each, and these are
 * drawn here: the pictures are the same on every machine, which no renderer with its own binary promises.
 */
import { DOMParser, type Element } from "@xmldom/xmldom";
import { PNG } from "pngjs";

/** Which source each size is drawn from: at 16 pixels the full mark would blur. */
export const ICONS = [
  { pixels: 16, source: "icon-small.svg" },
  { pixels: 32, source: "icon.svg" },
  { pixels: 64, source: "icon.svg" },
  { pixels: 80, source: "icon.svg" },
  { pixels: 128, source: "icon.svg" },
] as const;

/** Those of the page that a device keeps: plain ones, and some that the device cuts into a shape of its own. */
export const PAGE_ICONS = [
  { pixels: 192, name: "page-192.png", isGrounded: false },
  { pixels: 512, name: "page-512.png", isGrounded: false },
  { pixels: 180, name: "page-ground-180.png", isGrounded: true },
  { pixels: 512, name: "page-ground-512.png", isGrounded: true },
] as const;

type Colour = readonly [red: number, green: number, blue: number];

interface Shape {
  readonly colour: Colour;
  /** Whether a point, in the units of the view box, lies in the shape. */
  holds(x: number, y: number): boolean;
}

interface Drawing {
  /** Side of the square view box. */
  readonly side: number;
  /** The topmost first. */
  readonly shapes: readonly Shape[];
}

/** Reads a drawing. Throws on anything but the three shapes: what is not drawn here must not stand in a source. */
export function readDrawing(svg: string): Drawing {
  const root = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  const box = root?.getAttribute("viewBox")?.split(" ").map(Number) ?? [];
  const [left, top, width, height] = box;
  if (!root || left !== 0 || top !== 0 || width === undefined || width !== height) {
    throw new Error("A drawing needs a square viewBox that starts at 0 0.");
  }
  const shapes: Shape[] = [];
  for (let node = root.firstChild; node; node = node.nextSibling) {
    if (node.nodeType === node.ELEMENT_NODE) shapes.unshift(readShape(node as Element));
  }
  return { side: width, shapes };
}

const ATTRIBUTES: Readonly<Record<string, readonly string[]>> = {
  rect: ["x", "y", "width", "height", "rx", "fill"],
  line: ["x1", "y1", "x2", "y2", "stroke", "stroke-width"],
  circle: ["cx", "cy", "r", "fill"],
};

function readShape(element: Element): Shape {
  const known = ATTRIBUTES[element.tagName];
  if (known === undefined) throw new Error(`<${element.tagName}> is not drawn here.`);
  for (const { name } of Array.from(element.attributes)) {
    if (!known.includes(name)) throw new Error(`<${element.tagName} ${name}> is not drawn here.`);
  }
  const number = (name: string): number => {
    const value = Number(element.getAttribute(name) ?? Number.NaN);
    if (Number.isNaN(value)) throw new Error(`<${element.tagName}> needs the number ${name}.`);
    return value;
  };
  const colour = readColour(element.getAttribute(element.tagName === "line" ? "stroke" : "fill") ?? "");

  switch (element.tagName) {
    case "rect": {
      const [x, y, width, height, radius] = [number("x"), number("y"), number("width"), number("height"), number("rx")];
      return {
        colour,
        holds: (atX, atY) => {
          // How far the point lies outside the rectangle that is left when the corners' radius is taken off all round.
          const overX = Math.max(x + radius - atX, 0, atX - (x + width - radius));
          const overY = Math.max(y + radius - atY, 0, atY - (y + height - radius));
          return overX ** 2 + overY ** 2 <= radius ** 2;
        },
      };
    }
    case "line": {
      const [x1, y1, x2, y2, width] = [number("x1"), number("y1"), number("x2"), number("y2"), number("stroke-width")];
      const length = Math.hypot(x2 - x1, y2 - y1);
      const [alongX, alongY] = [(x2 - x1) / length, (y2 - y1) / length];
      return {
        colour,
        holds: (atX, atY) => {
          const along = (atX - x1) * alongX + (atY - y1) * alongY;
          const across = (atX - x1) * -alongY + (atY - y1) * alongX;
          return along >= 0 && along <= length && Math.abs(across) <= width / 2;
        },
      };
    }
    default: {
      const [x, y, radius] = [number("cx"), number("cy"), number("r")];
      return { colour, holds: (atX, atY) => (atX - x) ** 2 + (atY - y) ** 2 <= radius ** 2 };
    }
  }
}

function readColour(text: string): Colour {
  const digits = /^#([0-9a-f]{6})$/.exec(text)?.[1];
  if (digits === undefined) throw new Error(`The colour "${text}" must be # and six hexadecimal digits.`);
  return [0, 2, 4].map((at) => Number.parseInt(digits.slice(at, at + 2), 16)) as unknown as Colour;
}

/** Samples a side in each pixel: edges in 64 steps, more than the eye tells apart. */
const SAMPLES = 8;

/** The drawing at a size, as red, green, blue and alpha bytes, row by row. */
export function rasterise({ side, shapes }: Drawing, pixels: number): Buffer {
  const bytes = Buffer.alloc(pixels * pixels * 4);
  const step = side / pixels / SAMPLES;
  for (let pixel = 0; pixel < pixels * pixels; pixel += 1) {
    const left = (pixel % pixels) * SAMPLES;
    const top = Math.floor(pixel / pixels) * SAMPLES;
    let [red, green, blue, covered] = [0, 0, 0, 0];
    for (let sample = 0; sample < SAMPLES ** 2; sample += 1) {
      const x = (left + (sample % SAMPLES) + 0.5) * step;
      const y = (top + Math.floor(sample / SAMPLES) + 0.5) * step;
      const seen = shapes.find((shape) => shape.holds(x, y));
      if (seen === undefined) continue;
      red += seen.colour[0];
      green += seen.colour[1];
      blue += seen.colour[2];
      covered += 1;
    }
    if (covered === 0) continue;
    bytes.set(
      [red, green, blue].map((sum) => Math.round(sum / covered)),
      pixel * 4,
    );
    bytes[pixel * 4 + 3] = Math.round((covered / SAMPLES ** 2) * 255);
  }
  return bytes;
}

/** The icon's file at a size. */
export function drawIcon(svg: string, pixels: number): Buffer {
  return fileOf(readDrawing(svg), pixels);
}

/**
 * How large the mark stands on a ground that a device cuts as it likes: nothing of it lies outside the middle circle of
 * four fifths of the side, which every cut leaves (W3C, Web Application Manifest, "maskable" icons).
 */
const MARK_ON_GROUND = 0.85;

/** The icon's file for a device that cuts icons into a shape of its own: the lowest shape's colour up to the edges. */
export function drawGroundedIcon(svg: string, pixels: number): Buffer {
  const { side, shapes } = readDrawing(svg);
  const ground = shapes.at(-1);
  if (ground === undefined) throw new Error("A drawing without a shape has no ground.");
  const inDrawing = (at: number): number => (at - side / 2) / MARK_ON_GROUND + side / 2;
  const mark = shapes.map(({ colour, holds }) => ({
    colour,
    holds: (x: number, y: number) => holds(inDrawing(x), inDrawing(y)),
  }));
  return fileOf({ side, shapes: [...mark, { colour: ground.colour, holds: () => true }] }, pixels);
}

function fileOf(drawing: Drawing, pixels: number): Buffer {
  const png = new PNG({ width: pixels, height: pixels });
  rasterise(drawing, pixels).copy(png.data);
  return PNG.sync.write(png);
}
