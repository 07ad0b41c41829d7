/** A season in which the columns that are worked out hold something, as they do in a workbook that calculates. */
import type { CellValue } from "../../src/taskpane/host/host";
import type { MemoryHost } from "./memory-host";
import { firstDay } from "./small-season";

/** Fills the tables of season 2027 that pictures are drawn from. */
export function withAnswers(host: MemoryHost): MemoryHost {
  const fill = (table: string, rows: readonly Readonly<Record<string, CellValue>>[]): void => {
    const to = host.table(table);
    to.rows = rows.map((row) => to.headings.map((heading) => row[heading] ?? ""));
  };
  fill("Tricks_2027", [
    { Trick: "Double turn", Counts: 6, Travel: 1 },
    { Trick: "Thumb toss", Counts: "" },
  ]);
  fill("Routine_2027", [
    { Order: 1, Trick: "Double turn", Counts: 6 },
    { Order: 2, Trick: "Walk", Counts: 12 },
    { Order: 3, Trick: "Pose" },
  ]);
  fill("Landings_2027", [
    { Date: firstDay, Athlete: "A.R.", Trick: "Thumb toss", Sideways: 0.1, Forward: 0.2 },
    { Date: firstDay, Athlete: "A.R.", Trick: "Thumb toss", Sideways: "", Forward: "" },
  ]);
  fill("Contests_2027", [{ Date: firstDay + 1, Contest: "Spring cup", Athlete: "M.K." }]);
  return host;
}
