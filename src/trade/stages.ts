/** The stages at which a trick is practised, in the order of learning: common practice, no source. */
export const STAGES = ["Body only", "Toss only", "Wall", "Joined", "In context", "Run-through", "Contest"] as const;
export type Stage = (typeof STAGES)[number];

/** Practice apart from the joined trick: it is logged, and says nothing yet about the trick in the routine. */
export const STAGES_APART = ["Body only", "Toss only", "Wall"] as const satisfies readonly Stage[];

const APART: ReadonlySet<Stage> = new Set(STAGES_APART);

/** Whether body and toss are practised apart at this stage: the board leaves it out. */
export function isApart(stage: Stage): boolean {
  return APART.has(stage);
}
