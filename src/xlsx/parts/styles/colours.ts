/** Colours as the file names them (by their parts, by the theme with a tint, by number) as plain `#RRGGBB`. */
import { child, children, decimalNumber, isTrue, wholeNumber, type XmlElement } from "../../xml/tree";

export interface Palette {
  /** In the order in which cells count them: the first two pairs are the other way round in the theme's own list. */
  readonly theme: readonly string[];
  readonly indexed: readonly string[];
}

/** The usual theme of the present program, for files that bring none. */
const USUAL_THEME = [
  "#FFFFFF",
  "#000000",
  "#E7E6E6",
  "#44546A",
  "#4472C4",
  "#ED7D31",
  "#A5A5A5",
  "#FFC000",
  "#5B9BD5",
  "#70AD47",
  "#0563C1",
  "#954F72",
];

/** Colours by number (ECMA-376 part 1, 18.8.27); the first eight stand twice. */
const USUAL_INDEXED = (
  "000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF " +
  "800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF " +
  "000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99 " +
  "3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333"
)
  .split(" ")
  .map((digits) => `#${digits}`);

const THEME_ORDER = [
  "lt1",
  "dk1",
  "lt2",
  "dk2",
  "accent1",
  "accent2",
  "accent3",
  "accent4",
  "accent5",
  "accent6",
  "hlink",
  "folHlink",
];

export function readPalette(theme: XmlElement | undefined, stylesheet: XmlElement | undefined): Palette {
  const scheme = child(child(theme, "themeElements"), "clrScheme");
  const own = child(child(stylesheet, "colors"), "indexedColors");
  const ownColours = children(own, "rgbColor").map(({ attributes }) => fromDigits(attributes["rgb"]));
  return {
    theme: THEME_ORDER.map((name, index) => {
      const colour = child(scheme, name)?.children[0];
      const digits = colour?.attributes[colour.name === "sysClr" ? "lastClr" : "val"];
      return fromDigits(digits) ?? USUAL_THEME[index] ?? "#000000";
    }),
    indexed: USUAL_INDEXED.map((usual, index) => ownColours[index] ?? usual),
  };
}

/** The colour of a `color`, `fgColor` or `bgColor` element; undefined for one that the program chooses itself. */
export function readColour(element: XmlElement | undefined, palette: Palette): string | undefined {
  if (element === undefined || isTrue(element, "auto")) return undefined;
  const theme = wholeNumber(element, "theme");
  const indexed = wholeNumber(element, "indexed");
  const colour =
    theme !== undefined
      ? palette.theme[theme]
      : indexed !== undefined
        ? palette.indexed[indexed]
        : fromDigits(element.attributes["rgb"]);
  if (colour === undefined) return undefined;
  const tint = decimalNumber(element, "tint") ?? 0;
  return tint === 0 ? colour : tinted(colour, tint);
}

/** Eight digits begin with the opacity, which no cell uses. */
function fromDigits(digits: string | undefined): string | undefined {
  const match = /^(?:[0-9a-f]{2})?([0-9a-f]{6})$/i.exec(digits ?? "");
  return match?.[1] === undefined ? undefined : `#${match[1].toUpperCase()}`;
}

/** Darker for a tint below 0, lighter above: the lightness of the colour moves, its hue stays (part 1, 18.8.19). */
function tinted(colour: string, tint: number): string {
  const { hue, saturation, lightness } = toHsl(colour);
  const share = Math.max(-1, Math.min(1, tint));
  const moved = share < 0 ? lightness * (1 + share) : lightness * (1 - share) + share;
  return fromHsl(hue, saturation, moved);
}

function toHsl(colour: string): { hue: number; saturation: number; lightness: number } {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255);
  const most = Math.max(red, green, blue);
  const least = Math.min(red, green, blue);
  const lightness = (most + least) / 2;
  const spread = most - least;
  if (spread === 0) return { hue: 0, saturation: 0, lightness };
  const saturation = spread / (1 - Math.abs(2 * lightness - 1));
  const sector =
    most === red
      ? (((green - blue) / spread) % 6) + 6
      : most === green
        ? (blue - red) / spread + 2
        : (red - green) / spread + 4;
  return { hue: sector % 6, saturation, lightness };
}

function fromHsl(hue: number, saturation: number, lightness: number): string {
  const chroma = (1 - Math.abs(2 * lightness - 1)) * saturation;
  const second = chroma * (1 - Math.abs((hue % 2) - 1));
  const base = lightness - chroma / 2;
  const [red, green, blue] = (
    [
      [chroma, second, 0],
      [second, chroma, 0],
      [0, chroma, second],
      [0, second, chroma],
      [second, 0, chroma],
      [chroma, 0, second],
    ] as const
  )[Math.floor(hue) % 6] ?? [0, 0, 0];
  const digits = [red, green, blue].map((part) =>
    Math.round(Math.max(0, Math.min(1, part + base)) * 255)
      .toString(16)
      .padStart(2, "0"),
  );
  return `#${digits.join("").toUpperCase()}`;
}
