/** How long a federation waits for its table: a folder of 1,000 invented clubs' seasons into one Parquet file. */
import { statSync } from "node:fs";
import path from "node:path";
import { analyse, workbooksIn } from "../../src/tools/analyse/analyse";
import { writeSeasonFolder } from "./season-folder";

const CLUBS = 1000;
const FOLDER = path.resolve(__dirname, "../../build/seasons");

export async function analyseBenchmark(print: (line: string) => void): Promise<void> {
  let began = performance.now();
  writeSeasonFolder(FOLDER, CLUBS);
  const seconds = (): string => ((performance.now() - began) / 1000).toFixed(1);
  const bytes = workbooksIn(FOLDER).reduce((sum, file) => sum + statSync(path.join(FOLDER, file)).size, 0);
  print(`${CLUBS} workbooks, ${(bytes / 1e6).toFixed(1)} MB, written in ${seconds()} s (0 where they were there)`);
  began = performance.now();
  const used = process.cpuUsage();
  const out = path.resolve(FOLDER, "../season.parquet");
  const {
    read,
    rows,
    bytes: size,
    leftOut,
  } = await analyse({ folder: FOLDER, out, standard: 0.8, setSize: 10, withNames: false }, print);
  const { user, system } = process.cpuUsage(used);
  print(`read ${read}, left out ${leftOut.length}: ${rows} rows, ${size} bytes, in ${seconds()} s`);
  // The same whatever else the computer does.
  print(`processor time: ${((user + system) / 1e6).toFixed(1)} s`);
  print(`memory at the most: ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
}
