/** The words that a trick is judged by, in the order of its way; what each rests on stands in `core/readiness.ts`. */
export const STATUSES = ["No attempts", "Too few", "Building", "Confirm", "Ready", "Solid", "At risk"] as const;
export type Status = (typeof STATUSES)[number];

/** Whether the word says that the trick is good enough for the routine. */
export function isReady(status: Status): boolean {
  return status === "Ready" || status === "Solid";
}
