import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";

import { type RunningServer, serve } from "../../../src/tools/serve/server";

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: Buffer;
}

/** Asks for a path exactly as it is written: a browser or fetch would tidy `..` away first. */
function ask(url: string, path: string, headers: Record<string, string> = {}, method = "GET"): Promise<Answer> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, path, method, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on("data", (part: Buffer) => parts.push(part));
      response.on("end", () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(parts) }),
      );
    });
    asked.on("error", reject);
    asked.end();
  });
}

describe("the page's server", () => {
  const root = mkdtempSync(join(tmpdir(), "twirl-ledger-server-"));
  let server: RunningServer;

  beforeAll(async () => {
    mkdirSync(join(root, "page", "icons"), { recursive: true });
    mkdirSync(join(root, "functions"));
    writeFileSync(join(root, "secret.json"), "secret");
    writeFileSync(join(root, "page", "page.html"), "<!doctype html><title>page</title>");
    writeFileSync(join(root, "page", "page.js"), "let first = 1;");
    writeFileSync(join(root, "page", "icons", "icon.svg"), "<svg/>");
    writeFileSync(join(root, "page", ".hidden.json"), "secret");
    writeFileSync(join(root, "page", "notes.unknown"), "secret");
    writeFileSync(join(root, "functions", "functions.json"), "{}");
    writeFileSync(join(root, "functions", "page.js"), "let second = 2;");
    symlinkSync(join(root, "secret.json"), join(root, "page", "link.json"));
    server = await serve({ folders: [join(root, "page"), join(root, "functions")], port: 0 });
  });

  afterAll(async () => {
    await server.close();
    rmSync(root, { recursive: true });
  });

  test.each([
    ["/", "text/html; charset=utf-8", "<!doctype html><title>page</title>"],
    ["/page.js", "text/javascript; charset=utf-8", "let first = 1;"],
    ["/page.js?v=1#x", "text/javascript; charset=utf-8", "let first = 1;"],
    ["/icons/icon.svg", "image/svg+xml", "<svg/>"],
    ["/functions.json", "application/json; charset=utf-8", "{}"],
  ])("%s is served as %s", async (path, contentType, body) => {
    const answer = await ask(server.url, path);
    expect([answer.status, answer.headers["content-type"], answer.body.toString()]).toEqual([200, contentType, body]);
  });

  test.each([
    ["/../secret.json", "a step up"],
    ["/icons/../../secret.json", "a step up further in"],
    ["/%2e%2e/secret.json", "a step up in disguise"],
    ["/..%2fsecret.json", "a step up with the slash in disguise"],
    ["/..\\secret.json", "the other slash"],
    ["/link.json", "a link that leads out"],
    ["/.hidden.json", "a hidden file"],
    ["//etc/passwd", "an absolute path"],
    ["/page.js%00.json", "a zero byte"],
    ["/%ff", "a broken code"],
    ["/notes.unknown", "a kind of file that is not of the page"],
    ["/icons", "a folder"],
    ["/icons/", "a folder without a page"],
    ["/missing.js", "no such file"],
  ])("%s is refused: %s", async (path) => {
    const answer = await ask(server.url, path);
    expect([400, 404]).toContain(answer.status);
    expect(answer.body.toString()).not.toContain("secret\n");
    expect(answer.body.toString()).not.toBe("secret");
  });

  test("only reading is possible", async () => {
    for (const method of ["POST", "PUT", "DELETE", "OPTIONS"]) {
      expect((await ask(server.url, "/", {}, method)).status).toBe(405);
    }
    const head = await ask(server.url, "/page.js", {}, "HEAD");
    expect([head.status, head.body.length]).toEqual([200, 0]);
  });

  test("another site's name for this machine is refused", async () => {
    expect((await ask(server.url, "/", { Host: "evil.example" })).status).toBe(421);
    expect((await ask(server.url, "/", { Host: "localhost:4173" })).status).toBe(200);
  });

  test.each(["/", "/missing.js", "/../secret.json"])("%s comes with the security headers", async (path) => {
    const { headers } = await ask(server.url, path);
    const policy = String(headers["content-security-policy"]);
    for (const directive of [
      "default-src 'none'",
      "script-src 'self'",
      "connect-src 'self'",
      "frame-ancestors 'none'",
      "base-uri 'none'",
      "form-action 'none'",
    ]) {
      expect(policy.split("; ")).toContain(directive);
    }
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect(headers["referrer-policy"]).toBe("no-referrer");
    expect(headers["cross-origin-opener-policy"]).toBe("same-origin");
  });

  test("text is packed for who takes it", async () => {
    const answer = await ask(server.url, "/page.js", { "Accept-Encoding": "gzip, br" });
    expect(answer.headers["content-encoding"]).toBe("gzip");
    expect(gunzipSync(answer.body).toString()).toBe("let first = 1;");
  });

  test("a port that is taken gives way to a free one", async () => {
    const taken = Number(new URL(server.url).port);
    const second = await serve({ folders: [join(root, "page")], port: taken });
    try {
      expect(new URL(second.url).port).not.toBe(String(taken));
      expect((await ask(second.url, "/")).status).toBe(200);
    } finally {
      await second.close();
    }
  });

  test("a folder that is not there is said before anything is served", async () => {
    await expect(serve({ folders: [join(root, "nowhere")], port: 0 })).rejects.toThrow("nowhere");
    await expect(serve({ folders: [], port: 0 })).rejects.toThrow("no folder");
  });
});
