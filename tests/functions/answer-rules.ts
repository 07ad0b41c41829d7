/** What an answer of each cell function may be: the contract's shapes, and errors in words for a coach. */
import { HostError } from "./built";
import { metadata, SHEET_ROWS } from "./hostile-arguments";

const parametersOf = new Map(metadata.functions.map(({ id, parameters }) => [id, parameters.map(({ name }) => name)]));
const spills = new Set(
  metadata.functions.filter(({ result }) => result.dimensionality === "matrix").map(({ id }) => id),
);

/**
 * Rows and columns of each answer that is a block; 0 where their number depends on what was given, and two numbers of
 * columns where it is one of them.
 */
const BLOCKS: Readonly<Record<string, readonly [rows: number, columns: number, orColumns?: number]>> = {
  CATCHINTERVAL: [1, 2],
  READINESSCARD: [11, 2],
  SLUMP: [4, 2],
  COMPARE: [1, 5],
  READYDATE: [1, 3],
  TRICKHISTORY: [0, 7],
  BOARD: [0, 13],
  TALLYBOARD: [0, 13],
  STAGEBOARD: [0, 16, 17],
  LOGCHECK: [0, 0],
  CHANGEDAY: [8, 2],
  WAYS: [0, 11],
  CONDITIONS: [0, 9],
  FIRSTTRIES: [0, 10],
  PROGRESSION: [8, 6],
  TOSSPLAN: [9, 2],
  FILMTIME: [1, 2],
  PLACEMENT: [9, 2],
  LINESPREAD: [0, 4],
  DROPSPREAD: [0, 2],
  ROUTINESCORE: [4, 2],
  WEAKLINK: [0, 5],
  KEEPORSWAP: [5, 2],
  TIMELINE: [0, 4],
  PRACTICEPLAN: [0, 3],
  CLUBPLAN: [0, 0],
  TRAININGLOAD: [5, 2],
  CONTESTCHANCE: [1, 5],
  COUNTDOWN: [0, 11],
  PAIRBOARD: [0, 0],
};
/** Answers that are texts. */
const TEXTS = new Set(["READINESS", "TALLYREADINESS", "CATCHBARS"]);
/** Answers that are shares, from 0 to 1. */
const SHARES = new Set(["CATCHRATE", "CATCHINTERVAL", "CHANCEABOVE", "STREAKCHANCE", "CLEANCHANCE", "DROPCHANCE"]);

/** The longest text that a cell holds. */
const LONGEST_TEXT = 32_767;
/** What the host's small box still shows. */
const LONGEST_MESSAGE = 500;
/** Control characters, and those that turn the direction of what is written after them. */
// eslint-disable-next-line no-control-regex
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/;

/** What is wrong with an answer, or nothing. */
export function whatIsWrong(id: string, answer: unknown): string | undefined {
  if (answer instanceof HostError) return wrongError(id, answer);
  if (!spills.has(id)) {
    if (TEXTS.has(id)) return typeof answer === "string" && answer !== "" ? wrongCell(answer) : "no text";
    return typeof answer === "number" ? wrongNumber(id, answer) : "no number";
  }
  const block = BLOCKS[id];
  if (!block) return "a block whose shape nobody has written down";
  if (!Array.isArray(answer) || answer.length === 0) return "no block";
  const [rows, fewer, more] = block;
  const [heading] = answer as unknown[];
  const columns = Array.isArray(heading) && heading.length === more ? more : fewer;
  if (answer.length > SHEET_ROWS) return `${answer.length} rows, more than a sheet has`;
  if (rows > 0 && answer.length !== rows) return `${answer.length} rows instead of ${rows}`;
  for (const row of answer as unknown[]) {
    const width = columns === 0 ? (answer[0] as unknown[]).length : columns;
    if (!Array.isArray(row) || row.length !== width) return `a row that has not ${width} cells`;
    for (const cell of row as unknown[]) {
      const wrong = typeof cell === "number" ? wrongNumber(id, cell) : wrongCell(cell);
      if (wrong !== undefined) return wrong;
    }
  }
  return undefined;
}

function wrongNumber(id: string, value: number): string | undefined {
  if (!Number.isFinite(value)) return `the number ${value}`;
  if (SHARES.has(id) && (value < 0 || value > 1)) return `${value}, which is no share`;
  return undefined;
}

function wrongCell(cell: unknown): string | undefined {
  if (typeof cell === "number") return Number.isFinite(cell) ? undefined : `the number ${cell}`;
  if (typeof cell !== "string") return `something that a cell cannot hold: ${String(cell)}`;
  return cell.length > LONGEST_TEXT ? `a text of ${cell.length} characters` : undefined;
}

function wrongError(id: string, { code, message }: HostError): string | undefined {
  if (message.length < 10 || message.length > LONGEST_MESSAGE) return `a message of ${message.length} characters`;
  if (UNPRINTABLE.test(message)) return `a message that cannot be read: ${JSON.stringify(message)}`;
  // What was found may be anything; the words around it are ours.
  const ours = message.replace(/"[^]*"/g, "");
  if (/NaN|undefined|null|\[object|Error\b|mistake in the function/.test(ours)) return `the message ${message}`;
  if (code === "#N/A") return /^[A-Z][^\n]+$/.test(message) ? undefined : `the message ${message}`;
  if (code !== "#VALUE!") return `the error ${code}`;
  const told = /^(\w+)(, row \d+(, column \d+)?)?: found [^]+\. Accepted: [^]+\.$/.exec(message);
  if (!told) return `the message ${message}`;
  return parametersOf.get(id)?.includes(told[1] ?? "") ? undefined : `an argument that ${id} does not have: ${message}`;
}
