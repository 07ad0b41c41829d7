/**
 * The headers that a club's web space is to send with the add-in's files, and the same in the languages of common
 * static hosts.
 */
import { escapeHtml } from "../html";
import { pagePolicyHeader } from "../serve/page-policy";

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

const POLICY = "Content-Security-Policy";

/** The same for every file of the folder. */
const SHARED: readonly Header[] = [
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
      name: POLICY,
      value: policy,
      because:
        "Scripts and styles come from this folder alone, nothing is sent to anybody else, and only the spreadsheet program's own pages may show the pane in a frame.",
    },
    ...SHARED,
  ];
}

/** Those of the page in the folder `page/`, which no other page shows in a frame. */
export function pageHeaders(): readonly Header[] {
  return [
    {
      name: POLICY,
      value: pagePolicyHeader({ isKept: true }),
      because:
        "Scripts, styles and fonts come from this folder alone, nothing is sent to anybody else, and no other page may show this one in a frame. The two sums are of the styles that the open-source grid writes; data: and blob: are its own pictures and fonts.",
    },
    ...SHARED,
  ];
}

/** A file of the package, by its path in the folder. */
interface HeaderFile {
  readonly name: string;
  readonly content: string;
}

/** The documents beside the folder `page/`, as a web space shows them, with their ending or without. */
const DOCUMENTS = ["taskpane", "help", "guide", "INSTALL"] as const;

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

/** Of the folder `page/`: where a host reads such files in each folder, the one that lies deeper counts. */
export function pageHeaderFiles(): readonly HeaderFile[] {
  return [
    { name: ".htaccess", content: htaccess(pageHeaders()) },
    { name: "web.config", content: webConfig(pageHeaders()) },
  ];
}

/**
 * Hosts that read a file `_headers` in the root of the site: rules by path, then the headers, indented. All rules that
 * fit a path count together, and two policies would both hold: so each document is named with its own.
 */
function underscoreHeaders(path: string, all: readonly Header[]): string {
  const rule = (pattern: string, list: readonly Header[]): string =>
    `${path}${pattern}\n${list.map(({ name, value }) => `  ${name}: ${value}`).join("\n")}\n`;
  const own = all.filter(({ name }) => name === POLICY);
  return [
    rule("*", SHARED),
    ...DOCUMENTS.flatMap((name) => [rule(`${name}.html`, own), rule(name, own)]),
    rule(
      "page/*",
      pageHeaders().filter(({ name }) => name === POLICY),
    ),
  ].join("");
}

function htaccess(all: readonly Header[]): string {
  const lines = all.map(({ name, value }) => `  Header always set ${name} "${value}"`);
  return `<IfModule mod_headers.c>
${lines.join("\n")}
  Header always unset X-Frame-Options
</IfModule>
AddType application/json .json
AddType text/javascript .js
AddType font/woff2 .woff2
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
      <remove fileExtension=".woff2" />
      <mimeMap fileExtension=".woff2" mimeType="font/woff2" />
    </staticContent>
  </system.webServer>
</configuration>
`;
}

function nginx(path: string, all: readonly Header[]): string {
  const location = (place: string, list: readonly Header[]): string =>
    `location ${place} {
${list.map(({ name, value }) => `  add_header ${name} "${value}" always;`).join("\n")}
}
`;
  return `# Both go into the server block. A further add_header inside one of them would switch off those of that one.
${location(path, all)}${location(`${path}page/`, pageHeaders())}`;
}

function plainText(address: string, all: readonly Header[]): string {
  const [policy] = pageHeaders();
  const block = ({ name, value, because }: Header): string => `${name}: ${value}\n    ${because}`;
  return `Headers to send with every file below ${address}

${all.map(block).join("\n\n")}

Below ${address}page/ the first of them is another one, and the rest is the same:

${policy === undefined ? "" : block(policy)}

Do not send X-Frame-Options: the spreadsheet program on the web shows the pane in a frame, and that header would forbid
it. Files ending in .js go out as text/javascript, .json as application/json, .css as text/css, .html as text/html,
.png as image/png, .woff2 as font/woff2.
`;
}
