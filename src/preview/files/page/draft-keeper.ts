/** Keeps this page's unsaved work in the browser, a moment after each change, and offers what other pages have left. */
import { claimDraft, type Draft, type DraftHeading, type Drafts, openDrafts } from "./drafts";

export interface DraftKeeperParts {
  readonly current: () => Omit<Draft, "id" | "time">;
  /** The package behind the workbook; its version changes whenever the package does. */
  readonly original: () => { readonly version: string; readonly bytes: () => Uint8Array };
  /** Resolves when the page has nothing more urgent to work out. */
  readonly calm: () => Promise<void>;
  readonly offer: (drafts: readonly DraftHeading[]) => void;
  /** Nothing can be kept here. */
  readonly unable: () => void;
}

/** Long enough not to copy a large workbook at every key. */
const PAUSE_MILLISECONDS = 1500;

export class DraftKeeper {
  private id = crypto.randomUUID();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private keptVersion = "";
  private isKept = false;
  private isUnable = false;
  private readonly drafts: Promise<Drafts | undefined>;
  /** One after the other. */
  private work: Promise<void> = Promise.resolve();

  constructor(private readonly parts: DraftKeeperParts) {
    claimDraft(this.id);
    this.drafts = openDrafts().catch(() => undefined);
    void this.offerLeft();
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden" && this.timer !== undefined) void this.keepNow();
    });
  }

  /** Another workbook is open: what was kept of the one before is another's. */
  begin(): void {
    this.id = crypto.randomUUID();
    this.keptVersion = "";
    this.isKept = false;
    claimDraft(this.id);
  }

  keepSoon(): void {
    clearTimeout(this.timer);
    const timer = setTimeout(() => {
      void this.parts.calm().then(() => {
        // Another change, or a saving, may have come in the meantime.
        if (this.timer === timer) void this.keepNow();
      });
    }, PAUSE_MILLISECONDS);
    this.timer = timer;
  }

  keepNow(): Promise<void> {
    clearTimeout(this.timer);
    this.timer = undefined;
    const { version, bytes } = this.parts.original();
    const file = version === this.keptVersion ? undefined : bytes();
    const draft: Draft = { ...this.parts.current(), id: this.id, time: Date.now() };
    this.keptVersion = version;
    this.isKept = true;
    return this.enqueue((drafts) => drafts.keep(draft, file));
  }

  /** The work is saved, or given up. */
  forget(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    if (!this.isKept) return;
    this.isKept = false;
    this.keptVersion = "";
    const { id } = this;
    void this.enqueue((drafts) => drafts.remove(id));
  }

  async load(id: string): ReturnType<Drafts["load"]> {
    return (await this.drafts)?.load(id);
  }

  async remove(id: string): Promise<void> {
    await this.enqueue((drafts) => drafts.remove(id));
    await this.offerLeft();
  }

  private async offerLeft(): Promise<void> {
    const drafts = await this.drafts;
    if (drafts === undefined) return;
    const left = await drafts.left().catch(() => []);
    this.parts.offer(left.filter(({ id }) => id !== this.id));
  }

  private enqueue(work: (drafts: Drafts) => Promise<void>): Promise<void> {
    this.work = this.work
      .then(async () => {
        const drafts = await this.drafts;
        if (drafts === undefined) throw new Error("The browser keeps nothing.");
        await work(drafts);
      })
      .catch(() => {
        if (!this.isUnable) this.parts.unable();
        this.isUnable = true;
      });
    return this.work;
  }
}
