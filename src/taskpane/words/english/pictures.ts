/** The words of the Pictures part, in English. */
export const pictureTexts = {
  picturesTitle: "Pictures",
  picturesWhich: "What to look at",
  pictureNames: {
    record: "A trick’s record",
    failing: "A trick that fails",
    landings: "Where tosses land",
    routine: "The routine in time",
    toss: "A toss and the ceiling",
  },
  picturesReading: "Reading the season…",
  picturesNotRead: (reason: string) => `The season could not be read. ${reason}`,
  picturesNoSeason:
    "There is no season in this workbook yet. Build one first: pictures come with the sets that you log.",
  picturesTable: "The same as a table",
  pictureOf: (what: string, of: string) => `${what}: ${of}`,

  recordNothing: "Nobody has logged a set of a whole trick yet. Log one first: the picture grows with every set.",
  recordOfDays: (sets: number, first: string, last: string) =>
    `${sets === 1 ? "1 set" : `${String(sets)} sets`}, ${first === last ? first : `${first} to ${last}`}.`,
  recordLast: (caught: number, attempts: number, low: string, high: string) =>
    `Last set: ${String(caught)} of ${String(attempts)} caught; from this set alone the true rate lies between ${low} and ${high}.`,
  recordStatus: (status: string, reason: string, standard: string) =>
    `Status: ${status} (${reason}), against a standard of ${standard}.`,
  recordChanges: (changes: string) => `Status changed: ${changes}.`,
  recordChange: (status: string, day: string, reason: string) => `${status} on ${day} (${reason})`,
  recordContests: (contests: string) => `Contests: ${contests}.`,
  recordContest: (contest: string, day: string) => `${contest} (${day})`,
  recordLatest: (shown: number, sets: number) =>
    `Drawn are the latest ${String(shown)} of ${String(sets)} sets; the table has all.`,
  recordKey: {
    rate: "caught in a set",
    part: "a set that is not full",
    interval: "where the true rate lies, 95 in 100",
    standard: "the standard",
    status: "the status changes",
    contest: "a contest",
  },
  recordHeadings: ["Set", "Day", "Caught", "Rate", "True rate between", "Status", "Why"],
  fromTo: (low: string, high: string) => `${low} to ${high}`,
  caughtOf: (caught: number, attempts: number) => `${String(caught)} of ${String(attempts)}`,

  failingHeadings: ["Question", "Answer"],
  failingQuestions: {
    status: "How does it stand?",
    since: "Since when?",
    stage: "Where does it break?",
    firstTry: "Is it the first try?",
    entrance: "Another way in?",
    exit: "Another way out?",
    condition: "Is it a condition?",
    standIn: "What could stand in?",
    out: "Is it out?",
    next: "What next?",
  },
  failingTooFewDays: "Since when: from the third practice day on a change can be told.",
  failingNoChange: (days: number, chance: string) =>
    `Since when: no change seen in ${String(days)} practice days (chance of one: ${chance}).`,
  failingChange: (slid: boolean, day: string, before: string, since: string, chance: string) =>
    `Since ${day}: ${before} caught before, ${since} since; ${slid ? "a slide and not just a bad day" : "a rise and not just a good day"}, with a chance of ${chance}.`,
  failingAllStages: "Stages: every one is done.",
  failingStage: (stage: string, caught: number, attempts: number, run: number) =>
    attempts === 0
      ? `Stages: ${stage} is the first with something left, and not begun.`
      : `Stages: ${stage} is the first with something left: ${String(caught)} of ${String(attempts)} caught, best run ${String(run)}.`,
  failingNoFirstTry: "First try of the day: not known yet, since days begin with totals or nothing is logged.",
  failingFirstTry: (verdict: string, caught: number, attempts: number, laterCaught: number, laterAttempts: number) =>
    `First try of the day ${verdict === "not clear yet" ? "not clearly other than" : verdict === "worse" ? "worse than" : "better than"} the later ones: ${String(caught)} of ${String(attempts)}, later ${String(laterCaught)} of ${String(laterAttempts)}.`,
  failingOfWay: (what: string, answer: string) => `${what}: ${answer}`,
  failingNoWay: "none is noted yet in the log.",
  failingOneWay: (way: string) => `only “${way}” so far: try another, alternating within a practice.`,
  failingWaysUnclear: (ways: number) =>
    `${String(ways)} were tried and it is not clear yet: go on alternating within a practice.`,
  failingWay: (
    way: string,
    better: boolean,
    caught: number,
    attempts: number,
    usual: string,
    usualCaught: number,
    usualAttempts: number,
  ) =>
    `“${way}” is ${better ? "better" : "worse"}: ${String(caught)} of ${String(attempts)}, the usual “${usual}” ${String(usualCaught)} of ${String(usualAttempts)}, compared on the same days.`,
  failingAllDifferent:
    "so many different words that nothing can be compared: the same word for the same thing, and remarks under Note.",
  failingConditions: (answer: string) => `Conditions, over all tricks of this athlete: ${answer}`,
  failingCondition: (
    condition: string,
    verdict: "better" | "worse" | "not clear yet" | "never without it",
    caught: number,
    attempts: number,
    difference: string | undefined,
  ) => {
    const counted = `“${condition}” ${String(caught)} of ${String(attempts)}`;
    if (difference === undefined || verdict === "never without it") {
      return `${counted}, and no trick without it to compare with.`;
    }
    if (verdict === "not clear yet") return `${counted}; the same tricks without it do not clearly differ.`;
    return `${counted}: ${difference} ${verdict === "better" ? "more" : "fewer"} are caught than of the same tricks without it.`;
  },
  failingNoCounts: "Stand-in: this trick has no counts on the Tricks sheet.",
  failingNoStandIn: "Stand-in: none of this athlete’s tricks is Ready and has as few counts.",
  failingStandIns: (tricks: string) => `Could stand in, Ready and of no more counts: ${tricks}.`,
  failingOut: (day: string) => `Out of the routine since ${day}: its stages are counted from that day.`,
  failingNext: {
    stop: "Next: stop, two bails. Do not push repetitions; body and toss apart until both feel safe.",
    "keep warm": "Next: it holds; one set a practice keeps it warm.",
    "log more": "Next: it is still being learned; the stage above is where to go on.",
    "five running": "Next: five catches running, and no more than two bails.",
    neighbours: "Next: run it with the trick before and the trick after, five running.",
    "better way": "Next: take the way that is better.",
    "safer trick":
      "Next: a safer trick meanwhile, as a row under Out and back in on the Routine sheet; or another way in or out.",
    retrain: "Next: go on with the stage above; no pressure of the routine meanwhile.",
    "back in": "Next: it may come back; type the day under Back on, on the Routine sheet.",
  },
  failingCaution:
    "Two bails end a set, and no experiment goes on through bails. A mental block is not drilled away: back a stage, or leave it for today. Dizzy, in pain or struck: stop.",

  landingsNothing:
    "No landing marks yet. Chalk a target, toss, and note on the Toss lab sheet how far right and forward each one lands.",
  landingsMarks: (tosses: number) => (tosses === 1 ? "1 landing mark." : `${String(tosses)} landing marks.`),
  landingsWithin: (half: string, most: string, unit: string) =>
    `Half land within ${half} ${unit} of the target, nine tenths within ${most} ${unit}.`,
  landingsMean: (sides: string) => `On average ${sides}.`,
  landingsOnTarget: "on the target",
  landingsRight: (distance: string, unit: string) => `${distance} ${unit} to the right`,
  landingsLeft: (distance: string, unit: string) => `${distance} ${unit} to the left`,
  landingsForward: (distance: string, unit: string) => `${distance} ${unit} forward`,
  landingsBack: (distance: string, unit: string) => `${distance} ${unit} back`,
  and: (one: string, other: string) => `${one} and ${other}`,
  landingsFew: (more: number) =>
    more === 1
      ? "Mark 1 more before reading a drift from them."
      : `Mark ${String(more)} more before reading a drift from them.`,
  landingsNoDrift: "No clear drift: work on landing closer together, at the same count each time.",
  landingsDrift: "That is a clear drift: release from the midline, hips and shoulders square.",
  landingsCaution: "Stand back from the wall: the baton comes back from it. Nobody stands under another’s toss.",
  landingsKey: {
    mark: "a landing",
    target: "the target",
    mean: "their mean",
    half: "half of them",
    most: "nine tenths",
  },
  landingsAcross: "left and right",
  landingsUp: "back and forward",
  landingsHeadings: (unit: string) => ["Day", `Right, ${unit}`, `Forward, ${unit}`, `Distance, ${unit}`],

  routineNothing: "The Routine sheet lists no tricks yet. Put them there in order: the strip draws itself.",
  routineEntries: (entries: number, tosses: number, length: string) =>
    `${entries === 1 ? "1 entry" : `${String(entries)} entries`}, ${tosses === 1 ? "1 toss with a record" : `${String(tosses)} tosses with a record`}, ${length} long.`,
  routineOver: (over: string, limit: string) => `Over the limit of ${limit} by ${over} seconds.`,
  routineUnder: (under: string, limit: string) => `Under the limit of ${limit} by ${under} seconds.`,
  routineClean: (clean: string, drops: string) =>
    `Chance of no drop: ${clean}; drops to expect: ${drops}. Tosses are taken as independent.`,
  routineRisk: (tosses: string) => `Most at risk: ${tosses}.`,
  routineRiskOf: (trick: string, start: string, risk: string) => `${trick} at ${start}, dropped ${risk} of the time`,
  routineNoCounts: (entries: number) =>
    entries === 1
      ? "1 entry has no counts and takes no time here."
      : `${String(entries)} entries have no counts and take no time here.`,
  routineKey: { risk: "height of the hatching: share dropped", none: "no toss, or no record", limit: "the time limit" },
  routineHeadings: ["Order", "Trick", "Starts at", "Caught", "Dropped"],

  tossNothing: "No trick on the Tricks sheet has counts yet. Type body counts there: airtime and height follow.",
  tossCounts: (counts: string, perMinute: string, seconds: string) =>
    `${counts} counts at ${perMinute} a minute: ${seconds} s in the air.`,
  tossRise: (rise: string, peak: string, unit: string) =>
    `Rises ${rise} ${unit} above the hand, to ${peak} ${unit} above the floor.`,
  tossTravel: (travel: string, unit: string, lean: string) =>
    `Travels ${travel} ${unit}, leaving the hand ${lean}° from straight up.`,
  tossCeiling: (ceiling: string, unit: string) => `Ceiling ${ceiling} ${unit}.`,
  tossFits: {
    "ceiling not known": "The ceiling is not known: measure it to the lowest lamp or net before this toss.",
    hits: "It hits the ceiling: take fewer counts, faster counts or another hall.",
    close: "Too close to the ceiling or its lights: fewer or faster counts. Try it lower first.",
    "travels far": "It fits, but travels far for its height: keep the lane clear, and check the landing mark.",
    fits: "It fits under this ceiling. Keep the lane clear.",
  },
  tossKey: {
    path: "the baton, a dot at each count",
    ceiling: "the ceiling",
    clearance: "the room to leave under it",
    hand: "release and catch",
  },
  tossHeadings: (unit: string) => ["Count", "Time, s", `Height, ${unit}`, `Along, ${unit}`],
  tossFloor: "floor",
  tossImpossible: (reason: string) => `This toss cannot be drawn. ${reason}`,
};
