/** What the page says of itself: that it loads, works something out, is ready, or could not be opened. */
type PageState = "loading" | "calculating" | "ready" | "failed";

const stateWords: Readonly<Record<Exclude<PageState, "failed">, string>> = {
  loading: "Loading…",
  calculating: "Calculating…",
  ready: "Ready",
};

export function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`The page has no #${id}.`);
  return element;
}

export function showState(state: Exclude<PageState, "failed">): void {
  document.body.dataset["state"] = state;
  byId("state").textContent = stateWords[state];
}

export function showFailure(cause: unknown): void {
  document.body.dataset["state"] = "failed";
  const reason = cause instanceof Error ? cause.message : String(cause);
  byId("state").textContent = `The page could not be opened: ${reason}`;
}
