/**
 * The certificate with which a developer's own computer serves the add-in over https. It is good for this computer's
 * names only and cannot vouch for any other: whoever got hold of its key could pretend to be localhost and nothing else.
 */
import { createPrivateKey, X509Certificate } from "node:crypto";
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { generate } from "selfsigned";

interface Certificate {
  /** PEM. */
  readonly certificate: string;
  /** PEM. */
  readonly key: string;
}

export interface KeptCertificate extends Certificate {
  /** The certificate's file, to be trusted. */
  readonly file: string;
  /** It was made just now: one that was trusted before is to be removed. */
  readonly isNew: boolean;
}

/** Known by this name in the system's list of certificates. */
export const CERTIFICATE_NAME = "Twirl Ledger development (localhost)";

const DAY_MILLISECONDS = 86_400_000;
const VALID_DAYS = 365;
/** One that ends within so many days is made anew. */
const RENEW_DAYS = 7;

/** @param now from when on it is valid; it is so for 365 days */
export async function makeCertificate(now: Date): Promise<Certificate> {
  const made = await generate([{ name: "commonName", value: CERTIFICATE_NAME }], {
    keyType: "ec",
    curve: "P-256",
    algorithm: "sha256",
    notBeforeDate: now,
    notAfterDate: new Date(now.getTime() + VALID_DAYS * DAY_MILLISECONDS),
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      {
        name: "subjectAltName",
        altNames: [
          { type: 2, value: "localhost" },
          { type: 7, ip: "127.0.0.1" },
          { type: 7, ip: "::1" },
        ],
      },
    ],
  });
  return { certificate: made.cert, key: made.private };
}

/**
 * The certificate in the folder, or a new one where there is none, where it ends soon, or where its key is another's.
 * The key may be read by its owner alone.
 */
export async function keptCertificate(folder: string, now: Date): Promise<KeptCertificate> {
  const file = path.join(folder, "localhost.crt");
  const keyFile = path.join(folder, "localhost.key");
  if (existsSync(file) && existsSync(keyFile)) {
    const kept = { certificate: readFileSync(file, "utf8"), key: readFileSync(keyFile, "utf8") };
    chmodSync(keyFile, 0o600);
    if (isGood(kept, now)) return { ...kept, file, isNew: false };
  }
  const made = await makeCertificate(now);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  // A file that is there already would keep its mode.
  rmSync(keyFile, { force: true });
  writeFileSync(keyFile, made.key, { mode: 0o600 });
  writeFileSync(file, made.certificate);
  return { ...made, file, isNew: true };
}

function isGood({ certificate, key }: Certificate, now: Date): boolean {
  try {
    const read = new X509Certificate(certificate);
    const left = Date.parse(read.validTo) - now.getTime();
    return left > RENEW_DAYS * DAY_MILLISECONDS && read.checkPrivateKey(createPrivateKey(key));
  } catch {
    return false;
  }
}
