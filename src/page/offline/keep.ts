/**
 * Has the page kept on this device, so that it opens without a connection, and says what becomes of that. A script of its
 * own, which only the packaged page loads: the page of `npm start` is never kept.
 */
import { byId } from "../page-state";

const words = {
  kept: "This page is kept on this device now and opens without a connection.",
  newer:
    "A newer version of this page is here: it is used from the next opening, once every window of the page is closed.",
  notRenewed:
    "A newer version of this page could not be fetched whole: this one stays in use, and the next opening tries again.",
  notKept:
    "This page could not be kept on this device, and opens with a connection only; the next opening tries again.",
  unable:
    "This browser keeps no page, and this one opens with a connection only: the window is a private one, or its address is not one of https.",
} as const;

const FADING_MILLISECONDS = 10_000;

function say(sentence: string, kind: "told" | "warned" = "told"): void {
  const strip = byId("kept");
  strip.textContent = sentence;
  strip.dataset["kind"] = kind;
  strip.hidden = sentence === "";
  // The grid fits itself to the window when it is told that the window's size has changed.
  window.dispatchEvent(new Event("resize"));
}

/** The workbook comes first: what is kept is fetched once that is there. */
function opened(): Promise<void> {
  const isOpen = (): boolean => ["ready", "failed"].includes(document.body.dataset["state"] ?? "");
  return new Promise((resolve) => {
    const look = (): void => {
      if (!isOpen()) return;
      watch.disconnect();
      resolve();
    };
    const watch = new MutationObserver(look);
    watch.observe(document.body, { attributeFilter: ["data-state"] });
    look();
  });
}

function follow(worker: ServiceWorker, isFirst: boolean): void {
  let before = worker.state;
  worker.addEventListener("statechange", () => {
    const { state } = worker;
    if (state === "activated" && isFirst) {
      say(words.kept);
      setTimeout(() => say(""), FADING_MILLISECONDS);
    }
    if (state === "installed" && !isFirst) say(words.newer);
    // One that was whole and is let go has made room for a newer one.
    if (state === "redundant" && before === "installing") say(isFirst ? words.notKept : words.notRenewed, "warned");
    before = state;
  });
}

async function keep(): Promise<void> {
  await opened();
  const registration = await navigator.serviceWorker.register("worker.js", { updateViaCache: "none" });
  // A browser that runs short of room lets go of what it was not asked to hold: the page, and work that is not saved.
  void navigator.storage.persist().catch(() => undefined);
  let followed: ServiceWorker | null = null;
  const lookAt = ({ installing, active }: ServiceWorkerRegistration): void => {
    if (installing === null || installing === followed) return;
    followed = installing;
    follow(installing, active === null);
  };
  // Without a connection there is nothing newer.
  const ask = (): Promise<unknown> => registration.update().catch(() => undefined);
  if (registration.waiting !== null) say(words.newer);
  lookAt(registration);
  registration.addEventListener("updatefound", () => lookAt(registration));
  // A page on a tablet stays open for days.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void ask();
  });
  if (registration.active !== null) await ask();
}

if ("serviceWorker" in navigator) keep().catch(() => say(words.notKept, "warned"));
else say(words.unable, "warned");
