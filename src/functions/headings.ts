/** Every cell function: one file for each heading, in the order in which a coach meets them. */
import * as contest from "./contest";
import * as exchange from "./exchange";
import * as log from "./log";
import * as practice from "./practice";
import * as routine from "./routine";
import * as toss from "./toss";
import * as trick from "./trick";
import * as week from "./week";

/** A file's name without its ending, and what it exports: the cell functions, each by its id in small letters. */
export const headings = [
  { file: "practice", heading: "Record of practice", functions: practice },
  { file: "log", heading: "The log", functions: log },
  { file: "trick", heading: "When a trick fails", functions: trick },
  { file: "toss", heading: "The toss", functions: toss },
  { file: "routine", heading: "The routine", functions: routine },
  { file: "week", heading: "The week", functions: week },
  { file: "contest", heading: "The way to the contest", functions: contest },
  { file: "exchange", heading: "Duos and teams", functions: exchange },
] as const;
