/** Whether the host is light or dark, from the colour of its own panes. */
type Theme = "light" | "dark";

/**
 * The theme whose text is readable on `background`, or null for a colour that is not six hexadecimal digits.
 * Dark where the relative luminance is under 0.18, at which black and white text are equally readable (WCAG 2.2,
 * "relative luminance" and "contrast ratio").
 */
export function themeFor(background: string): Theme | null {
  const digits = /^#?([0-9a-f]{6})(?:[0-9a-f]{2})?$/i.exec(background.trim())?.[1];
  if (digits === undefined) return null;
  const [red, green, blue] = [0, 2, 4].map((at) => {
    const share = Number.parseInt(digits.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue < 0.179 ? "dark" : "light";
}
