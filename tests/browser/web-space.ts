/** A club's web space for one folder: plain files below a path, with the headers that the package brings for it. */
import { createHash } from "node:crypto";
import { existsSync, readFileSync, statSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { headersAt, type HeaderRule } from "./packaged-headers";

/** By the ending of a file's name. */
export const contentTypes: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".css": "text/css",
  ".js": "text/javascript",
  ".json": "application/json",
  ".png": "image/png",
  ".txt": "text/plain",
  ".woff2": "font/woff2",
  ".xml": "text/xml",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

interface Sent {
  readonly file: string;
  readonly status: number;
  readonly bytes: number;
}

export class WebSpace {
  /** What was answered, in order. */
  readonly sent: Sent[] = [];
  /** Files that are answered with 404, as when a copy was broken off. */
  readonly missing = new Set<string>();
  private server: Server | undefined;
  private port = 0;

  /**
   * @param base the path, with a slash at both ends
   * @param folder what is served; may be changed at any time
   */
  constructor(
    private readonly base: string,
    private readonly rules: readonly HeaderRule[],
    public folder: string,
  ) {}

  get url(): string {
    return `http://127.0.0.1:${String(this.port)}${this.base}`;
  }

  /** Again at the same address, where it was stopped. */
  async start(): Promise<void> {
    const server = createServer((request, response) => {
      const { pathname } = new URL(request.url ?? "/", "http://127.0.0.1");
      const name = pathname.slice(this.base.length) || "index.html";
      const { status, headers, body } = this.answer(pathname, name, request.headers["if-none-match"]);
      this.sent.push({ file: name, status, bytes: body.length });
      response.writeHead(status, headers);
      response.end(body);
    });
    this.server = server;
    await new Promise<void>((listening) => server.listen(this.port, "127.0.0.1", listening));
    this.port = (server.address() as AddressInfo).port;
  }

  async stop(): Promise<void> {
    await new Promise((closed) => {
      this.server?.close(closed);
      this.server?.closeAllConnections();
    });
  }

  private answer(
    pathname: string,
    name: string,
    known: string | undefined,
  ): { readonly status: number; readonly headers: Record<string, string>; readonly body: Buffer } {
    const headers = headersAt(this.rules, pathname);
    const file = path.join(this.folder, name);
    const isThere = pathname.startsWith(this.base) && existsSync(file) && statSync(file).isFile();
    if (!isThere || this.missing.has(name))
      return { status: 404, headers, body: Buffer.from("There is no such file.\n") };
    const content = readFileSync(file);
    const tag = `"${createHash("sha256").update(content).digest("hex")}"`;
    const all = {
      ...headers,
      ETag: tag,
      "Content-Type": contentTypes[path.extname(name)] ?? "application/octet-stream",
    };
    if (known === tag) return { status: 304, headers: all, body: Buffer.alloc(0) };
    if (!/\.(html|css|js|json|txt)$/.test(name)) return { status: 200, headers: all, body: content };
    return { status: 200, headers: { ...all, "Content-Encoding": "gzip" }, body: gzipSync(content, { level: 6 }) };
  }
}
