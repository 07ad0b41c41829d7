/**
 * `npm start`: builds what is stale, serves the try-out page on this machine, prints its address and opens it where
 * there is a browser. `npm start -- --no-open` only prints the address; `--port 5000` wishes for a port.
 */
import { numberOf, readCommand } from "./command-line";
import open from "open";
import { defaultPort, serve } from "./serve/server";
import { build } from "./build";
import { inProject } from "./paths";

async function main(words: readonly string[]): Promise<void> {
  const { values } = readCommand(words, {
    usage: "npm start -- [--port 5000] [--no-open]",
    options: { port: { type: "string" }, "no-open": { type: "boolean", default: false } },
  });
  const port = numberOf("--port", values.port, { otherwise: defaultPort, least: 0, most: 65_535 });
  console.log("Building what has changed; the first time takes a minute …");
  await build();
  const server = await serve({ folders: [inProject("build/preview")], port });
  console.log(`\nTwirl Ledger, the try-out page: ${server.url}\nPress Ctrl+C to end it.\n`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => void server.close().then(() => process.exit(0)));
  }
  if (values["no-open"] || !hasDesktop()) return;
  const browser = await open(server.url);
  // Without a browser the address above is all that is needed.
  browser.once("error", () => undefined);
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
