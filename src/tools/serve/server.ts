/**
 * Serves files of the given folders on this machine alone: the try-out page, under a strict Content-Security-Policy, and
 * over https a developer's own add-in. Nothing is ever asked of another host, and nothing is written.
 */
import { createReadStream } from "node:fs";
import { realpath, stat } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { createServer as createSecureServer } from "node:https";
import { extname, resolve, sep } from "node:path";
import { pipeline } from "node:stream";
import { createGzip } from "node:zlib";
import { pagePolicyHeader } from "./page-policy";

interface ServeOptions {
  /** Folders whose files are served, the first that has the file wins. */
  readonly folders: readonly string[];
  /** The port wished for; a free one is taken if it is in use. 0 takes a free one at once. */
  readonly port?: number;
  /** A port that is in use is refused, because something else names it. */
  readonly isPortFixed?: boolean;
  /** Over https, with this certificate and key (PEM). */
  readonly tls?: { readonly certificate: string; readonly key: string };
  /** In the place of the try-out page's own headers. */
  readonly headers?: Readonly<Record<string, string>>;
}

export interface RunningServer {
  readonly url: string;
  close(): Promise<void>;
}

export const defaultPort = 4173;

const contentTypes: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".xml": "text/xml; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

const compressed: ReadonlySet<string> = new Set([".html", ".js", ".css", ".json", ".svg", ".txt"]);

const securityHeaders: Readonly<Record<string, string>> = {
  "Content-Security-Policy": pagePolicyHeader({ isKept: false }),
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  // A page built anew must not be mixed with parts of the one before.
  "Cache-Control": "no-cache",
};

/** What every answer is made with. */
interface Site {
  readonly folders: readonly string[];
  readonly headers: Readonly<Record<string, string>>;
}

/** Starts the server on 127.0.0.1. Rejects if no folder is given or no port can be had. */
export async function serve(options: ServeOptions): Promise<RunningServer> {
  if (options.folders.length === 0) throw new Error("There is no folder to serve.");
  const folders = await Promise.all(options.folders.map((folder) => realpath(folder)));
  const site = { folders, headers: options.headers ?? securityHeaders };
  const respond = (request: IncomingMessage, response: ServerResponse): void => {
    answer(site, request, response).catch(() => {
      if (response.headersSent) response.destroy();
      else refuse(site, response, 500, "The file could not be read.");
    });
  };
  const { tls } = options;
  const server = tls ? createSecureServer({ cert: tls.certificate, key: tls.key }, respond) : createServer(respond);
  const port = await listen(server, options.port ?? defaultPort, options.isPortFixed ?? false);
  return { url: tls ? `https://localhost:${port}/` : `http://127.0.0.1:${port}/`, close: () => close(server) };
}

async function listen(server: Server, wished: number, isFixed: boolean): Promise<number> {
  const attempt = (port: number): Promise<number> =>
    new Promise((resolvePort, reject) => {
      server.once("error", reject);
      server.listen(port, "127.0.0.1", () => {
        server.off("error", reject);
        const address = server.address();
        if (address === null || typeof address === "string") reject(new Error("The server has no port."));
        else resolvePort(address.port);
      });
    });
  try {
    return await attempt(wished);
  } catch (problem) {
    if ((problem as NodeJS.ErrnoException).code !== "EADDRINUSE") throw problem;
    if (isFixed)
      throw new Error(`Port ${wished} is in use: end what uses it, or choose another with --port.`, { cause: problem });
    return attempt(0);
  }
}

function close(server: Server): Promise<void> {
  return new Promise((done, reject) => {
    server.close((problem) => (problem === undefined ? done() : reject(problem)));
    server.closeAllConnections();
  });
}

async function answer(site: Site, request: IncomingMessage, response: ServerResponse): Promise<void> {
  // Another site's page could reach this port by a name of its own that points here: such a name is refused.
  if (!isOwnHost(request.headers.host)) return refuse(site, response, 421, "This address is not served here.");
  if (request.method !== "GET" && request.method !== "HEAD")
    return refuse(site, response, 405, "Only reading is possible.");
  const path = pathOf(request.url ?? "/");
  if (path === null) return refuse(site, response, 400, "This address cannot be read.");
  const file = await findFile(site.folders, path);
  if (file === null) return refuse(site, response, 404, "There is no such file.");

  const kind = extname(file.path).toLowerCase();
  const contentType = contentTypes[kind];
  if (contentType === undefined) return refuse(site, response, 404, "There is no such file.");
  const zipped = compressed.has(kind) && /\bgzip\b/.test(request.headers["accept-encoding"] ?? "");
  const headers: Record<string, string> = { ...site.headers, "Content-Type": contentType, Vary: "Accept-Encoding" };
  if (zipped) headers["Content-Encoding"] = "gzip";
  else headers["Content-Length"] = String(file.size);
  response.writeHead(200, headers);
  if (request.method === "HEAD") {
    response.end();
    return;
  }
  const content = createReadStream(file.path);
  const finished = (problem: NodeJS.ErrnoException | null): void => {
    if (problem !== null) response.destroy();
  };
  if (zipped) pipeline(content, createGzip({ level: 1 }), response, finished);
  else pipeline(content, response, finished);
}

function isOwnHost(host: string | undefined): boolean {
  return host !== undefined && /^(127\.0\.0\.1|localhost)(:\d+)?$/.test(host);
}

/** The path inside a folder, or null where it is not a plain path to a file. */
function pathOf(url: string): string | null {
  let path: string;
  try {
    path = decodeURIComponent(url.split(/[?#]/, 1)[0] ?? "");
  } catch {
    return null;
  }
  if (!path.startsWith("/") || path.includes("\0") || path.includes("\\")) return null;
  const steps = path.slice(1).split("/");
  // No step may leave the folder, and files whose names start with a dot are nobody's business.
  if (steps.some((step) => step.startsWith("."))) return null;
  return steps.at(-1) === "" ? `${path.slice(1)}page.html` : path.slice(1);
}

async function findFile(
  folders: readonly string[],
  path: string,
): Promise<{ readonly path: string; readonly size: number } | null> {
  for (const folder of folders) {
    try {
      // A link inside the folder may point outside it: what counts is where the file really lies.
      const real = await realpath(resolve(folder, path));
      if (!real.startsWith(folder + sep)) continue;
      const found = await stat(real);
      if (found.isFile()) return { path: real, size: found.size };
    } catch (problem) {
      const code = (problem as NodeJS.ErrnoException).code;
      if (code !== "ENOENT" && code !== "ENOTDIR" && code !== "ENAMETOOLONG") throw problem;
    }
  }
  return null;
}

function refuse({ headers }: Site, response: ServerResponse, status: number, message: string): void {
  response.writeHead(status, { ...headers, "Content-Type": "text/plain; charset=utf-8" });
  response.end(`${message}\n`);
}
