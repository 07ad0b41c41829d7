/**
 * The headers that a club's web space is to send with the add-in's files, and the same in the languages of common
 * static hosts.
 */
import { escapeHtml } from "../html";

/** The host's own library from the vendor's network, where a club does not want the copy. */
export const OFFICE_NETWORK = "https://appsforoffice.microsoft.com";
export const OFFICE_NETWORK_SCRIPT = `${OFFICE_NETWORK}/lib/1/hosted/office.js`;

/**
 * Pages of the spreadsheet program on the web, which show the pane in a frame. The vendor publishes no list; these are
 * the ones that developers and the vendor's own people name (OfficeDev/office-js-docs-pr issue 4911, OfficeDev/office-js
 * issue 3342). On Windows and Mac the pane is in no frame.
 */
const FRAMED_BY = [
  "https://*.officeapps.live.com",
  "https://*.cloud.microsoft",
  "https://*.office.com",
  "https://*.sharepoint.com",
  "https://*.live.com",
] as const;

export interface HeaderOptions {
  /** The host's library comes from the vendor's network and not from the folder. */
  readonly officeNetwork: boolean;
}

interface Header {
  readonly name: string;
  readonly value: string;
  readonly because: string;
}

export function headers({ officeNetwork }: HeaderOptions): readonly Header[] {
  const library = officeNetwork ? ` ${OFFICE_NETWORK}` : "";
  const policy = [
    "default-src 'none'",
    `script-src 'self'${library}`,
    "style-src 'self'",
    "img-src 'self'",
    `connect-src 'self'${library}`,
    `frame-ancestors 'self' ${FRAMED_BY.join(" ")}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return [
    {
      name: "Content-Security-Policy",
      value: policy,
      because:
        "Scripts and styles come from this folder alone, nothing is sent to anybody else, and only the spreadsheet program's own pages may show the pane in a frame.",
    },
    { name: "X-Content-Type-Options", value: "nosniff", because: "A file is what it says it is." },
    { name: "Referrer-Policy", value: "no-referrer", because: "Nobody is told which page a link came from." },
    {
      name: "Access-Control-Allow-Origin",
      value: "*",
      because:
        "The spreadsheet program on the web reads functions.json from a page of its own. The files are the same for everybody and hold nothing about anyone.",
    },
    {
      name: "Cache-Control",
      value: "no-cache",
      because:
        "Files are kept, and the server is asked whether they are still current: an update comes whole, and an unchanged file is not sent again.",
    },
  ];
}

/** A file of the package, by its path in the folder. */
interface HeaderFile {
  readonly name: string;
  readonly content: string;
}

/** @param address the club's, ending with a slash */
export function headerFiles(address: string, options: HeaderOptions): readonly HeaderFile[] {
  const all = headers(options);
  const path = new URL(address).pathname;
  return [
    { name: "_headers", content: underscoreHeaders(path, all) },
    { name: ".htaccess", content: htaccess(all) },
    { name: "web.config", content: webConfig(all) },
    { name: "nginx.conf", content: nginx(path, all) },
    { name: "headers.txt", content: plainText(address, all) },
  ];
}

/** Hosts that read a file `_headers` in the root of the site: rules by path, then the headers, indented. */
function underscoreHeaders(path: string, all: readonly Header[]): string {
  return `${path}*\n${all.map(({ name, value }) => `  ${name}: ${value}`).join("\n")}\n`;
}

function htaccess(all: readonly Header[]): string {
  const lines = all.map(({ name, value }) => `  Header always set ${name} "${value}"`);
  return `<IfModule mod_headers.c>
${lines.join("\n")}
  Header always unset X-Frame-Options
</IfModule>
AddType application/json .json
AddType text/javascript .js
`;
}

function webConfig(all: readonly Header[]): string {
  const lines = all.flatMap(({ name, value }) => [
    `        <remove name="${name}" />`,
    `        <add name="${name}" value="${escapeHtml(value)}" />`,
  ]);
  return `<?xml version="1.0" encoding="utf-8"?>
<configuration>
  <system.webServer>
    <httpProtocol>
      <customHeaders>
        <remove name="X-Frame-Options" />
${lines.join("\n")}
      </customHeaders>
    </httpProtocol>
    <staticContent>
      <remove fileExtension=".json" />
      <mimeMap fileExtension=".json" mimeType="application/json" />
    </staticContent>
  </system.webServer>
</configuration>
`;
}

function nginx(path: string, all: readonly Header[]): string {
  const lines = all.map(({ name, value }) => `  add_header ${name} "${value}" always;`);
  return `# Goes into the server block. A further add_header inside this location would switch these off.
location ${path} {
${lines.join("\n")}
}
`;
}

function plainText(address: string, all: readonly Header[]): string {
  const blocks = all.map(({ name, value, because }) => `${name}: ${value}\n    ${because}`);
  return `Headers to send with every file below ${address}

${blocks.join("\n\n")}

Do not send X-Frame-Options: the spreadsheet program on the web shows the pane in a frame, and that header would forbid
it. Files ending in .js go out as text/javascript, .json as application/json, .css as text/css, .html as text/html,
.png as image/png.
`;
}
