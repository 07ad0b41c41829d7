/** One athlete's one trick, set by set: the share caught with its interval, the standard, status changes and contests. */
import type { HistorySet } from "../../../core/history";
import { dayInShort, dayInWords } from "../../words/day";
import { percent } from "../../words/number-text";
import { texts } from "../../words/texts";
import { dot, drawing, flag, keyEntry, LETTER_PIXELS, path, stroke, words, type Picture, type Point } from "./picture";

export interface RecordQuestion {
  readonly athlete: string;
  readonly trick: string;
  readonly sets: readonly HistorySet[];
  readonly standard: number;
  readonly setSize: number;
  /** The athlete's contests. */
  readonly contests: readonly { readonly date: number; readonly contest: string }[];
  /** What to take care of, or null. */
  readonly caution: string | null;
}

const LEFT = 40;
const RIGHT = 10;
const PLOT_HEIGHT = 150;
const BELOW = 20;
const LABEL_ROW = 15;
const LEAST_STEP = 9;
const DAY_ROOM = 52;

interface Change {
  readonly index: number;
  readonly set: HistorySet;
}

export function recordPicture(question: RecordQuestion, width: number): Picture {
  const { sets, standard, setSize } = question;
  const most = Math.max(2, Math.floor((width - LEFT - RIGHT) / LEAST_STEP));
  const shown = sets.slice(-most);
  const skipped = sets.length - shown.length;
  const step = (width - LEFT - RIGHT) / shown.length;
  const x = (index: number): number => LEFT + (index + 0.5) * step;

  // The first set in sight has its status told too, or nobody would know what changes.
  const changes = changesOf(sets);
  const inSight = [
    ...(skipped > 0 && changes.every(({ index }) => index !== skipped)
      ? [{ index: skipped, set: shown[0] as HistorySet }]
      : []),
    ...changes.filter(({ index }) => index >= skipped),
  ];
  const labels = layLabels(
    inSight.map(({ index, set }) => ({ at: x(index - skipped), text: set.judged.status })),
    width,
  );
  const rows = labels.reduce((count, { row }) => Math.max(count, row + 1), 0);
  const top = rows * LABEL_ROW + 6;
  const bottom = top + PLOT_HEIGHT;
  const y = (share: number): number => bottom - share * PLOT_HEIGHT;

  const contests = contestsAmong(question).filter(({ after }) => after >= skipped || skipped === 0);
  const points: readonly Point[] = shown.map(({ rate }, index) => ({ x: x(index), y: y(rate) }));

  const svg = drawing(
    width,
    bottom + BELOW,
    ...[0, 0.25, 0.5, 0.75, 1].flatMap((share) => [
      stroke("grid", { x: LEFT, y: y(share) }, { x: width - RIGHT, y: y(share) }),
      words(percent(share), { x: LEFT - 5, y: y(share) + 4 }, "end"),
    ]),
    stroke("axis", { x: LEFT, y: bottom }, { x: width - RIGHT, y: bottom }),
    stroke("standard", { x: LEFT, y: y(standard) }, { x: width - RIGHT, y: y(standard) }),
    ...labels.flatMap(({ at, left, text, row }) => [
      stroke("change", { x: at, y: (row + 1) * LABEL_ROW - 1 }, { x: at, y: bottom }),
      words(text, { x: left, y: (row + 1) * LABEL_ROW - 4 }, "start", "status-word"),
    ]),
    ...contests.flatMap(({ after }) => {
      const at = LEFT + (after - skipped) * step;
      return [stroke("contest", { x: at, y: top }, { x: at, y: bottom }), flag("contest-flag", { x: at, y: bottom })];
    }),
    ...shown.flatMap(({ interval }, index) => whisker(x(index), y(interval.low), y(interval.high))),
    ...(points.length > 1 ? [path("record-line", points)] : []),
    ...shown.map(({ attempts }, index) =>
      dot(attempts < setSize ? "mark-part" : "mark", points[index] as Point, Math.min(4, Math.max(2.5, step / 3))),
    ),
    ...dayLabels(shown, x, bottom + 14, width),
  );

  return {
    svg,
    title: texts.pictureOf(texts.pictureNames.record, `${question.athlete}, ${question.trick}`),
    sentences: sentencesOf(question, changes, contests, shown.length),
    key: keyOf(sets, setSize, contests.length > 0, changes.length > 0),
    table: {
      headings: texts.recordHeadings,
      rows: sets.map(({ date, caught, attempts, rate, interval, judged }, index) => [
        String(index + 1),
        dayInWords(date),
        texts.caughtOf(caught, attempts),
        percent(rate),
        texts.fromTo(percent(interval.low), percent(interval.high)),
        judged.status,
        texts.reasonInWords(judged),
      ]),
    },
    caution: question.caution,
  };
}

/** The first set, and each whose status is not that of the set before. */
function changesOf(sets: readonly HistorySet[]): readonly Change[] {
  return sets.flatMap((set, index) => (set.judged.status === sets[index - 1]?.judged.status ? [] : [{ index, set }]));
}

interface Label {
  readonly at: number;
  readonly left: number;
  readonly text: string;
  /** From above, 0 the topmost. */
  readonly row: number;
}

/** Each word at its set, in the lowest row in which it has room; the rows are then counted from above. */
function layLabels(wanted: readonly { readonly at: number; readonly text: string }[], width: number): readonly Label[] {
  const ends: number[] = [];
  const laid = wanted.map(({ at, text }) => {
    const length = text.length * LETTER_PIXELS + 4;
    const left = Math.max(2, Math.min(at - 3, width - length));
    const found = ends.findIndex((end) => end + 6 <= left);
    const row = found < 0 ? ends.length : found;
    ends[row] = left + length;
    return { at, left, text, row };
  });
  return laid.map((label) => ({ ...label, row: ends.length - 1 - label.row }));
}

/** The contests, each with how many sets lie before it. */
function contestsAmong({ sets, contests }: RecordQuestion): readonly ContestMark[] {
  return [...contests]
    .sort((one, other) => one.date - other.date)
    .map(({ date, contest }) => ({
      date,
      contest,
      after: sets.filter((set) => set.date < date).length,
    }));
}

interface ContestMark {
  readonly date: number;
  readonly contest: string;
  readonly after: number;
}

function whisker(x: number, low: number, high: number): readonly SVGElement[] {
  return [
    stroke("interval", { x, y: low }, { x, y: high }),
    stroke("interval", { x: x - 2.5, y: low }, { x: x + 2.5, y: low }),
    stroke("interval", { x: x - 2.5, y: high }, { x: x + 2.5, y: high }),
  ];
}

/** The day under as many sets as there is room for, the first and the last among them. */
function dayLabels(
  shown: readonly HistorySet[],
  x: (index: number) => number,
  y: number,
  width: number,
): readonly SVGElement[] {
  const count = Math.max(1, Math.min(shown.length, Math.floor((width - LEFT - RIGHT) / DAY_ROOM)));
  const at = new Set(
    Array.from({ length: count }, (_, tick) =>
      count === 1 ? 0 : Math.round((tick * (shown.length - 1)) / (count - 1)),
    ),
  );
  return [...at].flatMap((index) => {
    const set = shown[index];
    if (!set) return [];
    const text = dayInShort(set.date);
    const half = (text.length * LETTER_PIXELS) / 2;
    const middle = Math.max(LEFT - 8 + half, Math.min(x(index), width - half));
    return [words(text, { x: middle, y }, "middle")];
  });
}

function sentencesOf(
  { sets, standard }: RecordQuestion,
  changes: readonly Change[],
  contests: readonly ContestMark[],
  shown: number,
): readonly string[] {
  const [first, latest] = [sets[0], sets.at(-1)];
  return [
    ...(first && latest ? [texts.recordOfDays(sets.length, dayInWords(first.date), dayInWords(latest.date))] : []),
    ...(latest
      ? [
          texts.recordStatus(latest.judged.status, texts.reasonInWords(latest.judged), percent(standard)),
          texts.recordLast(latest.caught, latest.attempts, percent(latest.interval.low), percent(latest.interval.high)),
        ]
      : []),
    ...(changes.length > 1
      ? [
          texts.recordChanges(
            changes
              .map(({ set: { judged, date } }) =>
                texts.recordChange(judged.status, dayInShort(date), texts.reasonInWords(judged)),
              )
              .join("; "),
          ),
        ]
      : []),
    ...(contests.length > 0
      ? [
          texts.recordContests(
            contests.map(({ contest, date }) => texts.recordContest(contest, dayInShort(date))).join(", "),
          ),
        ]
      : []),
    ...(shown < sets.length ? [texts.recordLatest(shown, sets.length)] : []),
  ];
}

function keyOf(
  sets: readonly HistorySet[],
  setSize: number,
  hasContests: boolean,
  hasChanges: boolean,
): Picture["key"] {
  const recordKey = texts.recordKey;
  const middle = { x: 13, y: 7 };
  const across = [
    { x: 0, y: 7 },
    { x: 26, y: 7 },
  ] as const;
  const up = [
    { x: 13, y: 0 },
    { x: 13, y: 14 },
  ] as const;
  return [
    keyEntry(recordKey.rate, stroke("record-line", ...across), dot("mark", middle, 4)),
    ...(sets.some(({ attempts }) => attempts < setSize) ? [keyEntry(recordKey.part, dot("mark-part", middle, 4))] : []),
    keyEntry(recordKey.interval, ...whisker(13, 13, 1)),
    keyEntry(recordKey.standard, stroke("standard", ...across)),
    ...(hasChanges ? [keyEntry(recordKey.status, stroke("change", ...up))] : []),
    ...(hasContests
      ? [keyEntry(recordKey.contest, stroke("contest", ...up), flag("contest-flag", { x: 13, y: 14 }))]
      : []),
  ];
}
