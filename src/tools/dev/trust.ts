/** How the certificate comes to be trusted on a developer's computer, and how it goes again. */
import { X509Certificate } from "node:crypto";
import { CERTIFICATE_NAME, type KeptCertificate } from "./certificate";

interface TrustWords {
  readonly where: string;
  readonly trust: string;
  readonly remove: string;
}

/**
 * The commands for each system. Each touches this user's own list only, none needs an administrator.
 * @param platform as `process.platform` has it; Linux for any that is not known
 */
export function trustWords(
  { certificate, file }: Pick<KeptCertificate, "certificate" | "file">,
  platform: string,
): TrustWords {
  const fingerprint = new X509Certificate(certificate).fingerprint.replaceAll(":", "");
  switch (platform) {
    case "win32":
      return {
        where: "Windows, in a command prompt",
        trust: `certutil -user -addstore Root "${file}"`,
        remove: `certutil -user -delstore Root ${fingerprint}`,
      };
    case "darwin":
      return {
        where: "Mac, in a terminal",
        trust: `security add-trusted-cert -p ssl -k ~/Library/Keychains/login.keychain-db "${file}"`,
        remove: `security delete-certificate -Z ${fingerprint} -t ~/Library/Keychains/login.keychain-db`,
      };
    default:
      return {
        where: "Linux, for Chromium (certutil is in the package libnss3-tools)",
        trust: `certutil -d sql:$HOME/.pki/nssdb -A -t "P,," -n "${CERTIFICATE_NAME}" -i "${file}"`,
        remove: `certutil -d sql:$HOME/.pki/nssdb -D -n "${CERTIFICATE_NAME}"`,
      };
  }
}
