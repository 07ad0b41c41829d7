/**
 * INSTALL.html: how the packaged folder comes to a club, for the administrator and for a coach alone, with the update
 * and the removal. The steps are those of the vendor's documentation (OfficeDev/office-js-docs-pr: "Sideload Office
 * Add-ins to Office on the web", "… on Mac", "… from a network share", "Clear the Office cache"; Microsoft 365 admin:
 * "Deploy and manage add-ins in Integrated apps").
 */
import { escapeHtml } from "../html";
import { htmlPage } from "../html-page";
import { adminSteps, desktopFolders, update, uploadOnTheWeb, wholeWay } from "./drawings";
import { headers, type HeaderOptions, pageHeaders } from "./headers";

interface InstallPageOptions extends HeaderOptions {
  /** Ends with a slash. */
  readonly address: string;
  /** As in the manifest: 1.2.3.0 */
  readonly version: string;
  readonly forDevelopment: boolean;
}

export function installPage(options: InstallPageOptions): string {
  const { address, version, forDevelopment } = options;
  return htmlPage({
    title: "Twirl Ledger: install, update, remove",
    styles: ["help.css", "install.css"],
    main: `<h1>Twirl Ledger: install, update, remove</h1>
<p>Version ${escapeHtml(version)}, made for <code>${escapeHtml(address)}</code>.${forDevelopment ? " <b>For a developer's own computer, not for a club.</b>" : ""} The add-in works in Excel on the web, on Windows and on a Mac (there with a Microsoft 365 subscription); not on an iPad or a phone, where the last answers are shown. It needs no account of its own and sends nothing anywhere: the workbook stays where the club keeps it.</p>
${wholeWay()}
<nav aria-label="On this page"><ul>
<li><a href="#host">Put the folder on the web space</a></li>
<li><a href="#club">For the whole club: the administrator</a></li>
<li><a href="#coach">For one coach: upload the manifest</a></li>
<li><a href="#check">See that it works</a></li>
<li><a href="#page">The page for a tablet</a></li>
<li><a href="#update">Update</a></li>
<li><a href="#remove">Remove</a></li>
<li><a href="#safety">What the administrator will ask</a></li>
</ul></nav>
${hosting(options)}
${wholeClub()}
${oneCoach()}
${check()}
${pageForTablet(options)}
${updating(version)}
${removal()}
${safety(options)}
<p>The menus are named as the vendor's documentation names them; a newer version of the program may call one differently. These steps could not be tried in the spreadsheet program itself by the makers: please tell them what differs.</p>`,
  });
}

function section(id: string, heading: string, content: string): string {
  return `<section id="${id}" aria-labelledby="${id}-heading">\n<h2 id="${id}-heading">${heading}</h2>\n${content}\n</section>`;
}

function steps(list: readonly string[]): string {
  return `<ol>\n${list.map((step) => `<li>${step}</li>`).join("\n")}\n</ol>`;
}

function link(address: string, file: string): string {
  const whole = escapeHtml(address + file);
  return `<a href="${whole}">${whole}</a>`;
}

function hosting({ address }: InstallPageOptions): string {
  const path = escapeHtml(new URL(address).pathname);
  return section(
    "host",
    "Put the folder on the web space",
    `<p>Any web space that serves plain files over https will do. There is nothing to run on it.</p>
${steps([
  `Copy everything in this folder to where <code>${escapeHtml(address)}</code> leads. Files whose names begin with a dot belong to it too.`,
  `Have the web space send the headers. The folder brings them in the languages of common hosts; take the one that fits and delete the others:
<table class="files"><thead><tr><th>file</th><th>for</th></tr></thead><tbody>
<tr><td><code>_headers</code></td><td>static hosts that read a file of this name; move it into the root of the site (the rules in it are for <code>${path}</code>)</td></tr>
<tr><td><code>.htaccess</code></td><td>Apache with <code>AllowOverride FileInfo</code>; stays in the folder, and another one in <code>page</code></td></tr>
<tr><td><code>web.config</code></td><td>IIS and Azure App Service; stays in the folder, and another one in <code>page</code></td></tr>
<tr><td><code>nginx.conf</code></td><td>nginx; its two <code>location</code> blocks go into the server block</td></tr>
<tr><td><code>headers.txt</code></td><td>anything else: each header in words</td></tr>
</tbody></table>`,
  `Open ${link(address, "functions.json")} and ${link(address, "help.html")} in a browser: both must be shown, without a warning about the certificate.`,
])}
<p>On a web space that lets you set no headers the add-in works as well, as long as other pages may read <code>functions.json</code> (<code>Access-Control-Allow-Origin</code>); only the safeguards are then missing.</p>`,
  );
}

function wholeClub(): string {
  return section(
    "club",
    "For the whole club: the administrator",
    `${adminSteps()}
<p>You need a Microsoft 365 administrator's account, and each coach needs a work or school account of the same organisation.</p>
${steps([
  "In the Microsoft 365 admin center open <b>Settings › Integrated apps</b>, then <b>Upload custom apps</b>.",
  "App type <b>Office Add-in</b>; choose <code>manifest.xml</code> from this folder.",
  "<b>Assign users</b>: begin with yourself, then the coaches' group.",
  "Accept the permission (the add-in reads and writes the open workbook, and nothing else), then <b>Deploy</b>.",
  "It can take up to 24 hours until the button <b>Twirl Ledger</b> stands on everybody's Home tab.",
])}`,
  );
}

function oneCoach(): string {
  return section(
    "coach",
    "For one coach: upload the manifest",
    `<h3>On the web</h3>
${uploadOnTheWeb()}
${steps([
  "Open a workbook in Excel on the web. <b>Home › Add-ins › More Add-ins</b>.",
  "<b>My Add-ins › Manage My Add-ins › Upload My Add-in</b>.",
  "Choose <code>manifest.xml</code> and press <b>Upload</b>. The button stands on the Home tab.",
])}
<p>The browser keeps it. In another browser, or after its data was cleared, upload it again.</p>
<h3>On a Windows computer</h3>
${desktopFolders()}
${steps([
  "Make a folder, put <code>manifest.xml</code> into it, and share it (<b>Properties › Sharing › Share</b>). Note the network path, such as <code>\\\\MYCOMPUTER\\twirl</code>.",
  "In Excel: <b>File › Options › Trust Center › Trust Center Settings › Trusted Add-in Catalogs</b>. Type the network path, <b>Add catalog</b>, tick <b>Show in Menu</b>, press OK, and close and open Excel.",
  "<b>Home › Add-ins › More Add-ins › Shared Folder</b>, choose Twirl Ledger, <b>Add</b>.",
])}
<p>The vendor means this way for trials; for a club that stays, use the administrator's.</p>
<h3>On a Mac</h3>
${steps([
  "In the Finder press Command+Shift+G and go to <code>~/Library/Containers/com.microsoft.Excel/Data/Documents/wef</code>. Make the folder <code>wef</code> if it is not there.",
  "Copy <code>manifest.xml</code> into it, and close and open Excel.",
  "<b>Home › Add-ins</b>: Twirl Ledger is listed under Developer Add-ins.",
])}`,
  );
}

function check(): string {
  return section(
    "check",
    "See that it works",
    steps([
      "Press <b>Twirl Ledger</b> on the Home tab: the pane opens at the side.",
      "Type <code>=TWIRL.STREAKCHANCE(0.6,5,30)</code> into a cell: it shows 0.644, the chance that somebody who catches 60 % gets five in a row within 30 tries.",
      "In the pane fill in <b>New season</b> and build it: its sheets show no <code>#NAME?</code>. If one does, press <b>Repair formulas</b> in the pane.",
    ]),
  );
}

function pageForTablet({ address }: InstallPageOptions): string {
  return section(
    "page",
    "The page for a tablet",
    `<p>For a coach without the spreadsheet program, the folder <code>page</code> is a spreadsheet of its own with the same pane and functions, at ${link(address, "page/")}. After the first visit it works without a connection. A club that does not want it leaves that folder out.</p>
${steps([
  "Open it with a connection, and wait until the line below the sheet says that the page is kept on this device.",
  "Install it: <b>Install</b> in the browser's menu; on an iPad <b>Share › Add to Home Screen</b>, since Safari lets go of a page that is only visited after a week without it.",
  "<b>Save</b> after each practice: the saved file is the workbook. The page keeps a copy of what is open in this browser, and whoever opens the page on this device sees it.",
])}
<p>An update needs nobody: the line below the sheet says that a newer version is there, and it is used from the next opening, once every window of the page is closed. To remove the page, uninstall it and clear the browser's data for its address; saved workbooks stay.</p>`,
  );
}

function updating(version: string): string {
  return section(
    "update",
    "Update",
    `${update()}
${steps([
  "Copy the new folder over the old one. The pane and the functions are new the next time a workbook is opened; new functions can take a day to be known.",
  `Only if the version in the new manifest differs from ${escapeHtml(version)}: the administrator opens <b>Integrated apps › Twirl Ledger › Update add-in</b> and uploads it; a coach alone uploads it again, or puts it in the place of the old one.`,
])}
<p>Workbooks need no change: names of functions and the order of their arguments never change.</p>`,
  );
}

function removal(): string {
  return section(
    "remove",
    "Remove",
    `<ul>
<li><b>Whole club:</b> <b>Integrated apps › Twirl Ledger › Remove app</b>. It can take 24 hours.</li>
<li><b>On the web:</b> clear the browser's data for the spreadsheet program's pages.</li>
<li><b>Windows:</b> take <code>manifest.xml</code> out of the shared folder; in <b>Trusted Add-in Catalogs</b> remove the catalog and tick <b>Next time Office starts, clear all previously-started web add-ins cache</b>.</li>
<li><b>Mac:</b> delete <code>manifest.xml</code> from the folder <code>wef</code> and open Excel again.</li>
<li>Then delete the folder on the web space.</li>
</ul>
<p>Nothing is lost: logs and settings are plain cells of the workbook. Cells with Twirl Ledger's formulas show their last answers until they are worked out again, then <code>#NAME?</code>. To keep the answers, copy them and paste them as values first.</p>`,
  );
}

function safety(options: InstallPageOptions): string {
  const rows = headers(options).map(
    ({ name, value, because }) =>
      `<tr><td><code>${escapeHtml(name)}: ${escapeHtml(value)}</code></td><td>${escapeHtml(because)}</td></tr>`,
  );
  const library = options.officeNetwork
    ? "The host's own library comes from the vendor's network, which sees that the pane was opened."
    : "The host's own library is a copy in the folder <code>office</code>: no request goes to any other address.";
  return section(
    "safety",
    "What the administrator will ask",
    `<ul>
<li><b>What can it read?</b> The workbook that is open (<code>ReadWriteDocument</code>). Athletes are often minors: the log holds initials, and nothing of it leaves the workbook.</li>
<li><b>What does it send?</b> Nothing. No accounts, no telemetry, no server. ${library}</li>
<li><b>What does it keep on a computer?</b> In the browser's storage for this address: a set that was begun and not saved yet, and the pane's last choices. The page for a tablet keeps its own files too, and a copy of the workbook that is open.</li>
<li><b>Which headers does the web space send?</b></li>
</ul>
<table><thead><tr><th>header</th><th>why</th></tr></thead><tbody>
${rows.join("\n")}
</tbody></table>
<p>The folder <code>page</code> has a policy of its own, which no other page may frame: <code>${escapeHtml(pageHeaders()[0]?.value ?? "")}</code></p>
<p><code>X-Frame-Options</code> must not be sent: on the web the spreadsheet program shows the pane in a frame.</p>`,
  );
}
