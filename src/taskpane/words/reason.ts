import { texts } from "./texts";

/** An error's own words, as a sentence. */
export function reasonOf(cause: unknown): string {
  const message = cause instanceof Error ? cause.message.trim() : "";
  if (message === "") return texts.unknownCause;
  return /[.!?]$/.test(message) ? message : `${message}.`;
}
