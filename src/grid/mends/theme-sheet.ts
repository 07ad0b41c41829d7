/**
 * Hands the grid's theme to the page without a `<style>` element, which the page's Content-Security-Policy refuses: a
 * sheet made by a script is no inline style.
 */
import type { Theme } from "@univerjs/themes";
import { ThemeSwitcherService } from "@univerjs/ui";

export class ThemeSheetService extends ThemeSwitcherService {
  private readonly sheet = new CSSStyleSheet();

  override injectThemeToHead(theme: Theme): void {
    this.sheet.replaceSync(`:root { ${variablesOf(theme, "--univer").join(" ")} }`);
    if (!document.adoptedStyleSheets.includes(this.sheet)) document.adoptedStyleSheets.push(this.sheet);
  }
}

/** `{ gray: { 50: "#fff" } }` becomes `--univer-gray-50: #fff;`, the names that the grid's own stylesheet reads. */
function variablesOf(branch: object, path: string): string[] {
  return Object.entries(branch).flatMap(([key, value]: [string, unknown]) =>
    typeof value === "object" && value !== null
      ? variablesOf(value, `${path}-${key}`)
      : [`${path}-${key}: ${String(value)};`],
  );
}
