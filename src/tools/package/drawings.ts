/** The pictures of INSTALL.html: boxes, arrows and words in the page's own colours. */
import { escapeHtml } from "../html";

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
  readonly look?: "strong" | "field" | "page";
}

interface Arrow {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly words?: string;
}

interface Drawing {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly Box[];
  readonly arrows: readonly Arrow[];
}

const LINE_HEIGHT = 18;

function draw({ title, width, height, boxes, arrows }: Drawing): string {
  return `<svg role="img" aria-label="${escapeHtml(title)}" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">
${boxes.map(box).join("\n")}
${arrows.map(arrow).join("\n")}
</svg>`;
}

function box({ x, y, width, height, lines, look }: Box): string {
  const inPage = look === "page";
  const middle = inPage ? y + LINE_HEIGHT : y + height / 2 + 5 - ((lines.length - 1) * LINE_HEIGHT) / 2;
  const words = lines.map(
    (line, index) =>
      `<text x="${inPage ? x + 10 : x + width / 2}" y="${middle + index * LINE_HEIGHT}"${inPage ? "" : ' class="centred"'}>${escapeHtml(line)}</text>`,
  );
  return `<rect x="${x}" y="${y}" width="${width}" height="${height}" rx="6"${look ? ` class="${look}"` : ""}/>${words.join("")}`;
}

function arrow({ from: [x1, y1], to: [x2, y2], words }: Arrow): string {
  const length = Math.hypot(x2 - x1, y2 - y1);
  const [along, across] = [(x2 - x1) / length, (y2 - y1) / length];
  const corner = (side: number): string =>
    `${round(x2 - 9 * along - side * 5 * across)},${round(y2 - 9 * across + side * 5 * along)}`;
  // Above the middle, the higher the steeper the arrow.
  const text = words
    ? `<text x="${round((x1 + x2) / 2 + 24 * across)}" y="${round((y1 + y2) / 2 - 8 - 10 * Math.abs(across))}" class="centred">${escapeHtml(words)}</text>`
    : "";
  return `<line x1="${x1}" y1="${y1}" x2="${round(x2 - 6 * along)}" y2="${round(y2 - 6 * across)}"/><polygon points="${x2},${y2} ${corner(1)} ${corner(-1)}"/>${text}`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

/** Who puts what where. */
export function wholeWay(): string {
  return draw({
    title:
      "The way of the files: this folder goes to the club's web space; the administrator gives manifest.xml to the admin centre; the spreadsheet program of every coach reads the manifest and then the files.",
    width: 680,
    height: 210,
    boxes: [
      { x: 10, y: 20, width: 150, height: 60, lines: ["This folder"], look: "strong" },
      { x: 265, y: 20, width: 150, height: 60, lines: ["The club's", "web space"] },
      { x: 520, y: 75, width: 150, height: 60, lines: ["Each coach's", "spreadsheet"], look: "strong" },
      { x: 10, y: 135, width: 150, height: 60, lines: ["manifest.xml"], look: "field" },
      { x: 265, y: 135, width: 150, height: 60, lines: ["Admin centre"] },
    ],
    arrows: [
      { from: [160, 50], to: [265, 50], words: "1  copy" },
      { from: [85, 80], to: [85, 135] },
      { from: [160, 165], to: [265, 165], words: "2  upload" },
      { from: [415, 165], to: [520, 130], words: "3  button" },
      { from: [415, 40], to: [520, 85], words: "4  files" },
    ],
  });
}

/** The administrator's four screens. */
export function adminSteps(): string {
  const step = (x: number, lines: readonly string[], look?: "strong"): Box => ({
    x,
    y: 20,
    width: 140,
    height: 70,
    lines,
    ...(look ? { look } : {}),
  });
  return draw({
    title: "Four steps: Integrated apps, Upload custom apps, Assign users, Deploy.",
    width: 680,
    height: 110,
    boxes: [
      step(10, ["Integrated", "apps"]),
      step(185, ["Upload", "custom apps"]),
      step(360, ["Assign users"]),
      step(535, ["Deploy"], "strong"),
    ],
    arrows: [
      { from: [150, 55], to: [185, 55] },
      { from: [325, 55], to: [360, 55] },
      { from: [500, 55], to: [535, 55] },
    ],
  });
}

/** The dialog in which a coach uploads the manifest. */
export function uploadOnTheWeb(): string {
  return draw({
    title:
      "On the web: the Add-ins button on the Home tab opens the dialog; in it My add-ins, Manage my add-ins, Upload my add-in; then manifest.xml is chosen.",
    width: 680,
    height: 230,
    boxes: [
      {
        x: 10,
        y: 10,
        width: 660,
        height: 46,
        lines: ["File   Home   Insert   Draw   Page layout   Formulas   Data"],
        look: "page",
      },
      { x: 540, y: 16, width: 120, height: 34, lines: ["1  Add-ins"], look: "strong" },
      { x: 90, y: 80, width: 500, height: 140, lines: ["Office add-ins"], look: "page" },
      { x: 110, y: 115, width: 140, height: 34, lines: ["2  My add-ins"], look: "strong" },
      { x: 390, y: 90, width: 185, height: 34, lines: ["3  Manage my add-ins"], look: "field" },
      { x: 390, y: 128, width: 185, height: 34, lines: ["4  Upload my add-in"], look: "strong" },
      { x: 110, y: 172, width: 330, height: 34, lines: ["5  manifest.xml"], look: "field" },
      { x: 465, y: 172, width: 110, height: 34, lines: ["6  Upload"], look: "strong" },
    ],
    arrows: [],
  });
}

/** Where the manifest lies on a desktop computer. */
export function desktopFolders(): string {
  return draw({
    title:
      "On Windows manifest.xml lies in a shared folder that the program trusts; on a Mac in the program's folder wef. Both read the files from the club's web space.",
    width: 680,
    height: 230,
    boxes: [
      { x: 10, y: 10, width: 210, height: 95, lines: ["Windows:", "a shared, trusted folder"], look: "page" },
      { x: 55, y: 62, width: 120, height: 32, lines: ["manifest.xml"], look: "field" },
      { x: 10, y: 125, width: 210, height: 95, lines: ["Mac:", "the folder wef"], look: "page" },
      { x: 55, y: 177, width: 120, height: 32, lines: ["manifest.xml"], look: "field" },
      { x: 290, y: 80, width: 150, height: 70, lines: ["The spreadsheet", "program"], look: "strong" },
      { x: 520, y: 80, width: 150, height: 70, lines: ["The club's", "web space"] },
    ],
    arrows: [
      { from: [220, 70], to: [290, 100] },
      { from: [220, 160], to: [290, 130] },
      { from: [520, 115], to: [440, 115], words: "files" },
    ],
  });
}

/** What an update needs. */
export function update(): string {
  return draw({
    title:
      "An update: the new folder is copied over the old one; the manifest is uploaded again only where its version is new.",
    width: 680,
    height: 150,
    boxes: [
      { x: 10, y: 45, width: 150, height: 60, lines: ["The new folder"], look: "strong" },
      { x: 265, y: 10, width: 180, height: 60, lines: ["Web space:", "copy over the old"] },
      { x: 265, y: 85, width: 180, height: 55, lines: ["Admin centre:", "Update add-in"] },
      { x: 520, y: 45, width: 150, height: 60, lines: ["Next opening"], look: "strong" },
    ],
    arrows: [
      { from: [160, 65], to: [265, 40], words: "always" },
      { from: [160, 90], to: [265, 120], words: "if new" },
      { from: [445, 40], to: [520, 65] },
      { from: [445, 112], to: [520, 90] },
    ],
  });
}
