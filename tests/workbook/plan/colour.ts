/** What eyes make of colours: contrast as WCAG 2.2 defines it, difference as CIE 1976, and colour vision that differs. */

type Triple = readonly [number, number, number];

function channels(colour: string): Triple {
  const match = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  if (!match) throw new Error(`${colour} is not a colour`);
  const [red = 0, green = 0, blue = 0] = match.slice(1).map((digits) => parseInt(digits, 16) / 255);
  return [red, green, blue];
}

/** sRGB to linear light (IEC 61966-2-1). */
function linear(colour: string): Triple {
  const one = (value: number): number => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
  const [red, green, blue] = channels(colour);
  return [one(red), one(green), one(blue)];
}

/** Contrast ratio, 1 to 21 (WCAG 2.2, definitions of contrast ratio and relative luminance). */
export function contrast(one: string, other: string): number {
  const luminance = (colour: string): number => {
    const [red, green, blue] = linear(colour);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [darker = 0, lighter = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

/** Linear light as it looks to dichromats: the matrices for severity 1.0 of Machado, Oliveira and Fernandes 2009. */
const VISION: Readonly<Record<string, readonly [Triple, Triple, Triple]>> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  // No hue at all: the luminance for each channel.
  "no colours": [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
};

export const visions = Object.keys(VISION);

function multiply(matrix: readonly [Triple, Triple, Triple], [x, y, z]: Triple): Triple {
  const [first, second, third] = matrix.map((row) => row[0] * x + row[1] * y + row[2] * z);
  return [first ?? 0, second ?? 0, third ?? 0];
}

/** Distance in CIE L*a*b* (D65): about 2.3 is just noticed, 10 is seen at a glance. */
export function difference(one: string, other: string, vision: string): number {
  const matrix = VISION[vision];
  if (!matrix) throw new Error(`no vision ${vision}`);
  const lab = (colour: string): Triple => {
    const seen = multiply(matrix, linear(colour)).map((value) => Math.min(1, Math.max(0, value)));
    const [x, y, z] = multiply(
      [
        [0.4124564, 0.3575761, 0.1804375],
        [0.2126729, 0.7151522, 0.072175],
        [0.0193339, 0.119192, 0.9503041],
      ],
      [seen[0] ?? 0, seen[1] ?? 0, seen[2] ?? 0],
    );
    const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
    const [fx, fy, fz] = [f(x / 0.95047), f(y), f(z / 1.08883)];
    return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
  };
  const [a, b] = [lab(one), lab(other)];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
