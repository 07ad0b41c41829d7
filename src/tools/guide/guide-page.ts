/**
 * guide.html: one invented trick of one invented athlete through the whole job. Every number is worked out by the cell
 * functions when the page is made; where the text depends on an answer, making the page fails if the answer is another.
 */
import { htmlPage } from "../html-page";
import { cellFunctions } from "./cell-functions";
import { type Functions, Sheet, type Value } from "./sheet";
import { ask, block, caution, number, paragraph, share } from "./writing";

const TRICK = "Double spin left hand";
const COUNTS_PER_MINUTE = 200;

/** Day (a Monday in October first), stage, marks. */
const LOG: readonly (readonly [number, string, string])[] = [
  [46300, "Body only", "ccccc"],
  [46302, "Toss only", "ccdcc ccccd"],
  [46304, "Body only", "ccccc"],
  [46304, "Toss only", "ccccc cdccc"],
  [46307, "Wall", "ccccd ccccc"],
  [46309, "Joined", "cdcdc dcddc"],
  [46311, "Joined", "dccdc cdccc"],
  [46314, "Joined", "ccdcc cccdc"],
  [46316, "Joined", "ccccc ccdcc"],
  [46318, "Joined", "ccccc ccccc"],
  [46321, "Joined", "ccccc ccccc"],
  [46323, "In context", "ccdcc cdccc"],
  [46325, "In context", "ccccc ccccd"],
];

/** Day, stage, marks and how it was entered: the weeks in the routine, the slide, the trial of two ways in, the way back. */
const LATER: readonly (readonly [number, string, string, string])[] = [
  [46360, "In context", "ccccc cdccc", ""],
  [46362, "In context", "ccccd ccccc", ""],
  [46365, "In context", "ccccc ccccc", ""],
  [46367, "In context", "cdccc ccccc", ""],
  [46369, "In context", "ccccc cccdc", ""],
  [46372, "In context", "dccdd cdcdc", ""],
  [46374, "In context", "dcdcd dcdcc", ""],
  [46376, "In context", "dddcd cdccd", ""],
  [46379, "Joined", "dcdcd dcddc", "Walk"],
  [46379, "Joined", "ccdcc ccccc", "Half turn"],
  [46381, "Joined", "cdccc cccdc", "Half turn"],
  [46381, "Joined", "dcddc cddcd", "Walk"],
  [46383, "Joined", "cddcd dccdd", "Walk"],
  [46383, "Joined", "ccccd ccccc", "Half turn"],
  [46390, "Body only", "ccccc", ""],
  [46390, "Toss only", "cdccc ccccc", ""],
  [46393, "Wall", "ccccc", ""],
  [46395, "Joined", "ccccc ccdcc", "Half turn"],
  [46397, "Joined", "ccccc ccccc", "Half turn"],
];
/** The slide's rows end here, the trial's here, and the way back begins on this day. */
const BEFORE_THE_TRIAL = 8;
const TRIAL_TO = 14;
const OUT_SINCE = 46390;

/** To the right and forward of the target, metres. */
const LANDINGS: readonly (readonly [number, number])[] = [
  [0.1, 0.4],
  [0.3, 0.5],
  [-0.1, 0.3],
  [0.2, 0.6],
  [0, 0.2],
  [0.2, 0.5],
  [0.1, 0.3],
  [-0.2, 0.4],
];

/** The rest of the routine: trick, counts, rate on the board, value. */
const ROUTINE: readonly (readonly [string, number, number, number])[] = [
  ["Single illusion", 6, 0.93, 1.6],
  ["Flat under-leg", 3, 0.97, 0.8],
  ["Cartwheel", 6, 0.9, 1.4],
  ["Double spin", 5, 0.95, 1.2],
];
const VALUE = 1.7;

/** @param functions the cell functions; a test hands over the built ones */
export function makeGuidePage(functions: Functions = cellFunctions): string {
  const sheet = new Sheet(functions);
  return htmlPage({
    icon: "icons/icon-32.png",
    title: "Twirl Ledger: one trick through the whole job",
    styles: ["help.css", "guide.css"],
    main: [
      "<h1>One trick through the whole job</h1>",
      paragraph(
        `An invented athlete, J.T., is to learn the <i>${TRICK.toLowerCase()}</i>: a thumb toss, two spins under it, a catch with the left hand. The guide breaks it down, trains it, judges it, places it in the routine, and says what to do when it fails there. Type along in an empty sheet: each formula shows the answer that stands below it, rounded here. In a season's workbook the same formulas stand ready; <a href="help.html">the help</a> has every function with its arguments.`,
      ),
      breakDown(sheet),
      train(sheet),
      judge(sheet),
      place(sheet),
      fails(sheet),
      paragraph(
        "At the contest the drops are logged too, and the sheet <i>Contests</i> sets practice against what happened. Readiness stays the coach's judgement: the sheet adds evidence, it does not decide. The rules of the federation and of the hall come first.",
      ),
    ].join("\n"),
  });
}

function section(id: string, heading: string, parts: readonly string[]): string {
  return `<section id="${id}" aria-labelledby="${id}-heading">\n<h2 id="${id}-heading">${heading}</h2>\n${parts.join("\n")}\n</section>`;
}

/** The text is written for this answer. */
function requireAnswer(found: Value, expected: Value): void {
  if (found !== expected) throw new Error(`The guide is written for ${expected}, and the answer is ${found}.`);
}

function breakDown(sheet: Sheet): string {
  const plan = ask(sheet, `=TWIRL.TOSSPLAN(3,${COUNTS_PER_MINUTE},2,0.5,1.5,1.5,7)`, {
    Airtime: "hundredths",
    Rise: "hundredths",
    "Peak above floor": "hundredths",
    "Release speed": "tenths",
    "Drift speed": "hundredths",
    "Lean from vertical": "tenths",
    "Ceiling room": "hundredths",
  });
  requireAnswer(plan.beside("Verdict"), "Fits under this ceiling; keep the lane clear.");
  const most = ask(sheet, `=TWIRL.CEILINGCOUNTS(5,${COUNTS_PER_MINUTE})`);
  requireAnswer(most.at(0, 0), plan.beside("Counts"));
  const film = ask(sheet, "=TWIRL.FILMTIME(112,157,30)", { "0": "hundredths", "1": "hundredths" });
  return section("break-down", "Break it down", [
    paragraph(
      `Body: two spins take ${number(3)} counts as J.T. says them, at ${number(COUNTS_PER_MINUTE)} counts a minute. Baton: two counts more, one to spot it and one to catch. J.T. travels ${number(0.5)} m, lets go and catches at ${number(1.5)} m, and the hall is ${number(7)} m high. What toss is that?`,
    ),
    plan.html,
    paragraph(
      `The toss must last ${number(plan.beside("Airtime"), "hundredths")} s and rise ${number(plan.beside("Rise"), "hundredths")} m above the hand, ${number(plan.beside("Peak above floor"), "hundredths")} m above the floor. In a hall of ${number(5)} m the same toss just fits: the most counts there are`,
    ),
    most.html,
    paragraph(
      `A film says whether the toss is that long. At ${number(30)} frames a second the baton leaves the hand in frame ${number(112)} and is caught in frame ${number(157)}: the airtime, and how exact it is.`,
    ),
    film.html,
    caution(
      "Measure the ceiling and its lights before a high toss. Keep a clear lane, and nobody under another's toss. The spins are to be safe on their own first, taught by a qualified coach. A baton can injure an eye.",
    ),
  ]);
}

function train(sheet: Sheet): string {
  const log = block(sheet, {
    caption: "The log, one row a set",
    left: "A",
    headings: ["Date", "Trick", "Stage", "Marks"],
    rows: LOG.map(([date, stage, marks]) => [date, TRICK, stage, marks]),
    formats: ["day"],
  });
  const landings = block(sheet, {
    caption: "Where eight tosses came down, metres from the target",
    left: "F",
    headings: ["Sideways", "Forward"],
    rows: LANDINGS,
  });
  const placed = ask(sheet, `=TWIRL.PLACEMENT(F2:F${LANDINGS.length + 1},G2:G${LANDINGS.length + 1})`, {
    "Mean sideways": "hundredths",
    "Mean forward": "hundredths",
    "Spread sideways": "hundredths",
    "Spread forward": "hundredths",
    "Within 50 %": "hundredths",
    "Within 90 %": "hundredths",
  });
  requireAnswer(placed.beside("Bias clear"), "yes");
  return section("train", "Train it apart, then together", [
    paragraph(
      "The body alone, the toss alone, the toss at a wall, then both joined, then with the trick before and the trick after. Each set is one row: <b>c</b> caught, <b>d</b> dropped, <b>b</b> bailed.",
    ),
    log,
    paragraph("While the toss is trained alone, mark where it lands:"),
    landings,
    placed.html,
    paragraph(
      `The tosses come down ${number(placed.beside("Mean forward"), "hundredths")} m too far forward in the mean, and that is no chance. A wall in front shows the drift.`,
    ),
    caution(
      "Stand back from the wall: the baton comes back. Stop when dizzy, in pain or struck. Two bails end a set: do not push repetitions on someone who balks.",
    ),
  ]);
}

function judge(sheet: Sheet): string {
  const joined = LOG.flatMap(([, stage], index) => (stage === "Joined" ? [index + 2] : []));
  const first = joined[0] ?? 0;
  requireAnswer([...(LOG[(joined[2] ?? 0) - 2]?.[2] ?? "")].filter((mark) => mark === "c").length, 8);
  const upTo = (set: number) => ask(sheet, `=TWIRL.READINESS(D${first}:D${joined[set - 1] ?? 0})`);
  const [one, three, five, six] = [upTo(1), upTo(3), upTo(5), upTo(6)];
  requireAnswer(one.at(0, 0), "Building");
  requireAnswer(three.at(0, 0), "Confirm");
  requireAnswer(five.at(0, 0), "Confirm");
  requireAnswer(six.at(0, 0), "Ready");
  const range = ask(sheet, "=TWIRL.CATCHINTERVAL(8,10)", { "0": "percent", "1": "percent" });
  const card = ask(sheet, `=TWIRL.READINESSCARD(D${first}:D${joined.at(-1) ?? 0})`, {
    "Recent rate": "percent",
    Low: "percent",
    High: "percent",
    Chance: "percent",
  });
  requireAnswer(card.beside("Status"), "Ready");
  const bars = ask(sheet, `=TWIRL.CATCHBARS(D${first}:D${joined.at(-1) ?? 0})`);
  return section("judge", "Judge it", [
    paragraph(
      `Is it reliable enough? The rule of practice asks for eight catches of ten in a row tried. The word for the joined sets, after the first of them:`,
    ),
    one.html,
    paragraph(`After the third, which has eight of ten:`),
    three.html,
    paragraph(
      `Why not ready? Because eight of ten can be luck. Taken alone, that set says of the true rate only that it lies between ${share(range.at(0, 0))} and ${share(range.at(0, 1))}:`,
    ),
    range.html,
    paragraph("So it is shown again, on other days. After the fifth set, ten of ten:"),
    five.html,
    paragraph(
      "Still to be confirmed: the first sets weigh less and less, and they still weigh. After the sixth, ten of ten once more:",
    ),
    six.html,
    paragraph("And the figures behind the word:"),
    card.html,
    paragraph(
      `The latest attempts weighing most, ${share(card.beside("Recent rate"))} were caught, and the chance that the true rate is at the standard of ${share(0.8)} is ${share(card.beside("Chance"))}. A trick becomes ready when two sets are logged, the last is at the standard and that chance is at least ${share(0.82)}. From then on its own record is the measure: a set that it brings once in a hundred and fifty is a slide, and the word turns to At risk with the reason beside it. Set by set, oldest first:`,
    ),
    bars.html,
  ]);
}

function place(sheet: Sheet): string {
  const context = LOG.flatMap(([, stage], index) => (stage === "In context" ? [index + 2] : []));
  const rate = ask(sheet, `=TWIRL.CATCHRATE(D${context[0] ?? 0}:D${context.at(-1) ?? 0})`, { "0": "percent" });
  const last = ROUTINE.length + 2;
  const routine = block(sheet, {
    caption: "The routine's tosses",
    left: "I",
    headings: ["Trick", "Counts", "Rate", "Value"],
    rows: [...ROUTINE, [TRICK, 5, rate.at(0, 0), VALUE], ["Rolls and contact", 240]],
    formats: ["general", "general", "percent", "tenths"],
  });
  const without = ask(sheet, `=TWIRL.CLEANCHANCE(K2:K${last - 1})`, { "0": "percent" });
  const withIt = ask(sheet, `=TWIRL.CLEANCHANCE(K2:K${last})`, { "0": "percent" });
  const links = ask(sheet, `=TWIRL.WEAKLINK(I2:I${last},K2:K${last})`, {
    "1": "percent",
    "2": "hundredths",
    "3": "percent",
    "4": "percent",
  });
  requireAnswer(links.at(0, 0), TRICK);
  const swap = ask(sheet, `=TWIRL.KEEPORSWAP(K${last - 1},L${last - 1},K${last},L${last},0.5)`, {
    "Points now": "hundredths",
    "Points other": "hundredths",
    Difference: "hundredths",
    "Break-even rate": "percent",
  });
  if (!(Number(swap.beside("Difference")) > 0))
    throw new Error("The guide is written for a trick that brings more points.");
  const time = ask(sheet, `=TWIRL.TIMELINE(I2:I${last + 1},J2:J${last + 1},${COUNTS_PER_MINUTE},90)`);
  return section("place", "Place it", [
    paragraph("What counts for the routine is the rate between its neighbours, not alone:"),
    rate.html,
    routine,
    paragraph("The chance of a routine without a drop, as it was, and with the new trick in it:"),
    without.html,
    withIt.html,
    paragraph(
      `It falls from ${share(without.at(0, 0))} to ${share(withIt.at(0, 0))}. Which toss costs most, and what would the chance be if that one were caught for certain?`,
    ),
    links.html,
    paragraph(
      `The new trick is the weak link. Should it take the place of the double spin all the same? With ${number(0.5)} points lost for a drop:`,
    ),
    swap.html,
    paragraph(
      `On the club's own values it brings ${number(swap.beside("Points other"), "hundredths")} points in the mean instead of ${number(swap.beside("Points now"), "hundredths")}, a drop now and then included. That is the coach's choice: points in the mean, or a routine that stays clean more often. Last, does the whole fit into ${number(90)} seconds?`,
    ),
    time.html,
    caution(
      "Tosses are taken as independent of each other, and a day at the contest is not a day in the gym. What a drop costs is a setting: look it up in this season's rules.",
    ),
  ]);
}

/** When it keeps failing in the routine. */
function fails(sheet: Sheet): string {
  const log = block(sheet, {
    caption: "The same trick later, one row a set",
    left: "N",
    headings: ["Date", "Stage", "Marks", "Entrance"],
    rows: LATER.map((row) => [...row]),
    formats: ["day"],
  });
  const slid = BEFORE_THE_TRIAL + 1;
  const change = ask(sheet, `=TWIRL.CHANGEDAY(N2:N${slid},P2:P${slid})`, {
    Since: "day",
    Earliest: "day",
    Latest: "day",
    "Rate before": "percent",
    "Rate since": "percent",
    "Chance of a change": "percent",
  });
  requireAnswer(change.beside("Change"), "slid");
  const first = ask(sheet, `=TWIRL.FIRSTTRIES(N2:N${slid},P2:P${slid})`, percentFrom(3, 8));
  requireAnswer(first.at(1, 9), "not clear yet");
  const tries = ask(sheet, "=TWIRL.TELLAPART(0.45,0.8)");
  const trial = ask(sheet, `=TWIRL.WAYS(Q${slid + 1}:Q${TRIAL_TO + 1},P${slid + 1}:P${TRIAL_TO + 1},N${slid + 1}:N${TRIAL_TO + 1})`, percentFrom(3, 9)); // prettier-ignore
  requireAnswer(trial.at(2, 0), "Walk");
  requireAnswer(trial.at(2, 10), "worse");
  const last = LATER.length + 1;
  const back = ask(sheet, `=TWIRL.PROGRESSION(N2:N${last},O2:O${last},P2:P${last},0.8,10,${OUT_SINCE})`, {
    "2": "percent",
    "4": "day",
  });
  requireAnswer(back.at(4, 0), "Joined");
  requireAnswer(back.at(4, 5), "");
  if (back.at(5, 5) === "") throw new Error("The guide is written for a trick that is not back yet.");
  return section("fails", "When it keeps failing in the routine", [
    paragraph(
      "Some weeks later the trick is in the routine, and it is dropped again and again. In a season's workbook the sheet <i>Trick</i> answers what follows on one page, for the athlete and the trick that are chosen there.",
    ),
    log,
    paragraph("Since when, and is it more than a bad day?"),
    change.html,
    paragraph(
      `The rate fell from ${share(change.beside("Rate before"))} to ${share(change.beside("Rate since"))}, and the day is named with the days between which it lies. Before that day something was different: another hall, another cue, a growth spurt. Ask. Is it only the first toss of the day? A contest is a first toss:`,
    ),
    first.html,
    paragraph(
      "That is not clear here. So the trade's order of acting: repeat it for five catches running; run it with the trick before and the trick after; change the way in or out; put in a safer trick meanwhile. The first two were done, and it fell again. How many tries of each of two entrances would tell the present rate from the standard?",
    ),
    tries.html,
    paragraph(
      `${number(tries.at(0, 0))} tries of each, then. Three practices, a set of each way on each of them, never one way on Monday and the other on Wednesday: a good day is not to be taken for a good way.`,
    ),
    trial.html,
    paragraph(
      `The walk is caught less often than the half turn on the same days, and that is no luck: the difference lies between ${share(trial.at(2, 8))} and ${share(trial.at(2, 9))}. The half turn it is. A safer trick takes its place in the routine while it is retrained: a row under <i>Out and back in</i> on the sheet <i>Routine</i> names what goes out, what comes in and the day. From that day on its way back is counted, stage by stage:`,
    ),
    back.html,
    paragraph(
      `The joined trick is Ready again; what is left is what stands in the last column. Once that is done too, the day under <i>Back on</i> puts it into the routine again.`,
    ),
    caution(
      "Two bails end a set, and no experiment goes on through bails. A mental block is not drilled away: back a stage, no pressure, and leave the trick for today. Dizzy, in pain or struck: stop; a doctor's word comes first.",
    ),
  ]);
}

/** Columns of an answer, both ends included, as percentages. */
function percentFrom(first: number, last: number): Readonly<Record<string, "percent">> {
  return Object.fromEntries(
    Array.from({ length: last - first + 1 }, (_, index) => [String(first + index), "percent" as const]),
  );
}
