/** What every plain page around the add-in has: the help, the guide, the way to install it. */
import { escapeHtml } from "./html";

interface HtmlPage {
  readonly title: string;
  /** Style sheets beside the page. */
  readonly styles: readonly string[];
  /** A picture for the browser's tab, beside the page: without one a browser asks the web space for a file of its own. */
  readonly icon?: string;
  /** What stands in the page's main part, as HTML. */
  readonly main: string;
}

export function htmlPage({ title, styles, icon, main }: HtmlPage): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
${icon === undefined ? "" : `<link rel="icon" href="${icon}">\n`}${styles.map((style) => `<link rel="stylesheet" href="${style}">`).join("\n")}
</head>
<body>
<main>
${main}
</main>
</body>
</html>
`;
}
