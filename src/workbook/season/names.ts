/** The names of a season's sheets and tables: each carries the label, so that several seasons share one workbook. */

/** The label with every space and hyphen as `_`: what a table's name may hold. `2027 B` and `2027-B` give the same. */
function tableSuffix(label: string): string {
  return label.replace(/[ -]/g, "_");
}

interface SheetNames {
  readonly season: string;
  readonly tricks: string;
  readonly practice: string;
  readonly board: string;
  readonly trick: string;
  readonly routine: string;
  readonly week: string;
  readonly clubWeek: string;
  readonly tossLab: string;
  readonly contests: string;
  readonly exchanges: string;
  readonly team: string;
}

export function sheetNames(label: string): SheetNames {
  return {
    season: `Season ${label}`,
    tricks: `Tricks ${label}`,
    practice: `Practice ${label}`,
    board: `Board ${label}`,
    trick: `Trick ${label}`,
    routine: `Routine ${label}`,
    week: `Week ${label}`,
    clubWeek: `Club week ${label}`,
    tossLab: `Toss lab ${label}`,
    contests: `Contests ${label}`,
    exchanges: `Exchanges ${label}`,
    team: `Team ${label}`,
  };
}

interface TableNames {
  readonly athletes: string;
  readonly conditions: string;
  readonly daysOff: string;
  readonly calendar: string;
  readonly tricks: string;
  readonly practice: string;
  readonly routine: string;
  readonly swaps: string;
  readonly limits: string;
  readonly landings: string;
  readonly contests: string;
  readonly dropsByAthlete: string;
  readonly exchanges: string;
  readonly team: string;
}

export function tableNames(label: string): TableNames {
  const suffix = tableSuffix(label);
  return {
    athletes: `Athletes_${suffix}`,
    conditions: `Conditions_${suffix}`,
    daysOff: `Days_off_${suffix}`,
    calendar: `Calendar_${suffix}`,
    tricks: `Tricks_${suffix}`,
    practice: `Practice_${suffix}`,
    routine: `Routine_${suffix}`,
    swaps: `Swaps_${suffix}`,
    limits: `Limits_${suffix}`,
    landings: `Landings_${suffix}`,
    contests: `Contests_${suffix}`,
    dropsByAthlete: `Drops_${suffix}`,
    exchanges: `Exchanges_${suffix}`,
    team: `Team_${suffix}`,
  };
}

const LONGEST_SHEET_NAME = 31;

/** The name of a sheet that is added to a season, such as `M.K. 2027`, or with a number where that is taken. */
export function freeSheetName(what: string, label: string, taken: readonly string[]): string {
  const used = new Set(taken.map((name) => name.toLowerCase()));
  const plain = what.replace(/[\\/?*[\]:]/g, "-").replace(/^'+|'+$/g, "");
  for (let attempt = 1; ; attempt += 1) {
    const ending = attempt === 1 ? ` ${label}` : ` ${label} (${String(attempt)})`;
    const name = `${plain.slice(0, LONGEST_SHEET_NAME - ending.length)}${ending}`;
    if (!used.has(name.toLowerCase())) return name;
  }
}
