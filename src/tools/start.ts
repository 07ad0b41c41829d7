/**
 * `npm start`: builds what is stale, serves the try-out page on this machine, prints its address and opens it where
 * there is a browser. `npm start -- --no-open` only prints the address; `--port 5000` wishes for a port.
 */
import open from "open";
import { defaultPort, serve } from "./serve/server";
import { build } from "./build";
import { inProject } from "./paths";

async function main(words: readonly string[]): Promise<void> {
  const port = wishedPort(words);
  console.log("Building what has changed; the first time takes a minute …");
  await build();
  const server = await serve({ folders: [inProject("build/preview")], port });
  console.log(`\nTwirl Ledger, the try-out page: ${server.url}\nPress Ctrl+C to end it.\n`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => void server.close().then(() => process.exit(0)));
  }
  if (words.includes("--no-open") || !hasDesktop()) return;
  const browser = await open(server.url);
  // Without a browser the address above is all that is needed.
  browser.once("error", () => undefined);
}

function wishedPort(words: readonly string[]): number {
  const place = words.indexOf("--port");
  if (place < 0) return defaultPort;
  const port = Number(words[place + 1]);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    throw new Error(`--port takes a whole number from 0 to 65535, not ${words[place + 1] ?? "nothing"}.`);
  }
  return port;
}

/** On Linux without a screen there is nothing to open a page in. */
function hasDesktop(): boolean {
  if (process.env["CI"]) return false;
  return process.platform !== "linux" || Boolean(process.env["DISPLAY"] ?? process.env["WAYLAND_DISPLAY"]);
}

main(process.argv.slice(2)).catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
