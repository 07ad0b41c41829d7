/** The certificate as OpenSSL reads it (Node's own `X509Certificate` and `tls`), which had no part in making it. */
import { createPrivateKey, X509Certificate } from "node:crypto";
import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import https from "node:https";
import { serve } from "../../../src/tools/serve/server";
import { keptCertificate, makeCertificate } from "../../../src/tools/dev/certificate";
import { trustWords } from "../../../src/tools/dev/trust";

const now = new Date("2026-11-28T00:00:00Z");
const later = (days: number): Date => new Date(now.getTime() + days * 86_400_000);
const folder = mkdtempSync(path.join(os.tmpdir(), "twirl-ledger-"));

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("it is this computer's and nobody else's, for a year, and vouches for no other", async () => {
  const { certificate, key } = await makeCertificate(now);
  const read = new X509Certificate(certificate);
  expect(read.checkHost("localhost")).toBe("localhost");
  expect(read.checkIP("127.0.0.1")).toBe("127.0.0.1");
  expect(read.checkHost("tools.example.org")).toBeUndefined();
  expect(read.checkHost("club.localhost")).toBeUndefined();
  expect(read.ca).toBe(false);
  expect(read.checkPrivateKey(createPrivateKey(key))).toBe(true);
  expect(read.verify(read.publicKey)).toBe(true);
  expect(new Date(read.validFrom)).toEqual(now);
  expect(new Date(read.validTo)).toEqual(later(365));
  // Server authentication, RFC 5280, 4.2.1.12.
  expect(read.keyUsage).toEqual(["1.3.6.1.5.5.7.3.1"]);
});

test("it is kept, and its key is the owner's alone", async () => {
  const place = path.join(folder, "kept");
  const first = await keptCertificate(place, now);
  expect(first.isNew).toBe(true);
  if (process.platform !== "win32") {
    expect(statSync(path.join(place, "localhost.key")).mode & 0o777).toBe(0o600);
    expect(statSync(place).mode & 0o777).toBe(0o700);
    chmodSync(path.join(place, "localhost.key"), 0o644);
  }
  const second = await keptCertificate(place, later(300));
  expect(second).toEqual({ ...first, isNew: false });
  if (process.platform !== "win32") expect(statSync(path.join(place, "localhost.key")).mode & 0o777).toBe(0o600);
});

test.each([
  { why: "it ends within a week", when: later(360), spoil: () => Promise.resolve() },
  {
    why: "its key is another's",
    when: now,
    spoil: async (place: string) => writeFileSync(path.join(place, "localhost.key"), (await makeCertificate(now)).key),
  },
  {
    why: "its file is spoilt",
    when: now,
    spoil: (place: string) => Promise.resolve(writeFileSync(path.join(place, "localhost.crt"), "spoilt")),
  },
])("a new one is made where $why", async ({ why, when, spoil }) => {
  const place = path.join(folder, why.replaceAll(" ", "-"));
  const first = await keptCertificate(place, now);
  await spoil(place);
  const second = await keptCertificate(place, when);
  expect(second.isNew).toBe(true);
  expect(second.certificate).not.toBe(first.certificate);
  expect(readFileSync(second.file, "utf8")).toBe(second.certificate);
});

test("a client that trusts it reads a file over https, with the headers asked for; one that does not is refused", async () => {
  const certificate = await makeCertificate(new Date());
  writeFileSync(path.join(folder, "manifest.xml"), "<OfficeApp/>");
  const server = await serve({ folders: [folder], port: 0, tls: certificate, headers: { "X-Test": "yes" } });
  try {
    expect(server.url).toMatch(/^https:\/\/localhost:\d+\/$/);
    const read = (ca?: string): Promise<string> =>
      new Promise((resolve, reject) => {
        // The server listens on the first of this computer's two addresses.
        https
          .get(`${server.url}manifest.xml`, { family: 4, ...(ca ? { ca } : {}) }, (answer) => {
            let text = `${String(answer.statusCode)} ${String(answer.headers["content-type"])} ${String(answer.headers["x-test"])} `;
            answer.on("data", (piece: Buffer) => (text += piece.toString()));
            answer.on("end", () => resolve(text));
          })
          .on("error", reject);
      });
    expect(await read(certificate.certificate)).toBe("200 text/xml; charset=utf-8 yes <OfficeApp/>");
    await expect(read()).rejects.toThrow("self-signed certificate");
  } finally {
    await server.close();
  }
});

test("a fixed port that is in use is refused with what to do", async () => {
  const first = await serve({ folders: [folder], port: 0 });
  const port = Number(new URL(first.url).port);
  await expect(serve({ folders: [folder], port, isPortFixed: true })).rejects.toThrow(`Port ${port} is in use`);
  await first.close();
});

test.each(["win32", "darwin", "linux", "freebsd"])("how it is trusted and removed again on %s", async (platform) => {
  const { certificate } = await makeCertificate(now);
  const words = trustWords({ certificate, file: "/work of mine/localhost.crt" }, platform);
  expect(words.trust).toContain('"/work of mine/localhost.crt"');
  const thumb = new X509Certificate(certificate).fingerprint.replaceAll(":", "");
  expect(words.remove).toMatch(new RegExp(`${thumb}|Twirl Ledger development`));
  expect(`${words.trust}${words.remove}`).not.toMatch(/sudo/);
});
