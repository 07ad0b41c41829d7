/** The words of the first steps, and of what each status means, in English. */
export const firstStepsTexts = {
  firstSteps: "First steps",
  firstStepNames: ["Build a season", "Log a set", "Read the status"],
  firstStepDone: "done",
  firstStepsBuild:
    "Three fields are enough: a label such as 2027, your athletes’ initials, one trick. The others have usual values.",
  firstStepsBuildGo: "Fill in the form",
  firstStepsLog: "Choose athlete and trick, press one button for each attempt, then Save the set.",
  firstStepsLogHere: (season: string) => `Season ${season} is here already. Try it with a set, or build your own.`,
  firstStepsLogGo: "Count a set",
  firstStepsOwn: "Build my own",
  firstStepsSkip: "Skip",
  wordsOfTheBoard: "What the words mean",
  firstStepsStatus: (athlete: string, trick: string) => `${athlete}, ${trick}:`,
  firstStepsUnread: "The set is saved. Its status stands on the Board sheet.",
  firstStepsAfter: "It moves with every set. The Board sheet has all of them.",
  firstStepsPicture: "See it as a picture",
  firstStepsEnd: "Done",
  statusMeanings: {
    "No attempts": "Nothing is logged yet.",
    "Too few": "Fewer attempts than one set: log some more.",
    Building: "The last set is below the standard: not yet for the routine.",
    Confirm: "Not yet, or not any more: show another set at the standard, best on another day.",
    Ready: "Good enough for the routine: two sets or more, and the record behind them agrees.",
    Solid: "Firmly good enough: the record makes it at least 90 % likely.",
    "At risk": "It was ready and is slipping: look at it before it goes on in the routine.",
  },
};
