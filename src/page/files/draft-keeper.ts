/** Keeps this page's workbook in the browser, a moment after each change, and offers what other pages have left unsaved. */
import { claimDraft, type Draft, type DraftHeading, type Drafts, openDrafts } from "./drafts";
import { rememberOwnDraft } from "./kept-workbook";

export interface DraftKeeperParts {
  readonly current: () => Pick<Draft, "name" | "snapshot" | "opening" | "place">;
  /** The package behind the workbook; its version changes whenever the package does. */
  readonly original: () => { readonly version: string; readonly bytes: () => Uint8Array };
  /** Resolves when the page has nothing more urgent to work out. */
  readonly calm: () => Promise<void>;
  readonly offer: (drafts: readonly DraftHeading[]) => void;
  /** Told when something could not be kept here, and when it could again. */
  readonly unable: (isUnable: boolean) => void;
}

/** Long enough not to copy a large workbook at every key. */
const PAUSE_MILLISECONDS = 1500;

/** From one look for what other pages have left to the next. */
const LOOK_MILLISECONDS = 3000;

export class DraftKeeper {
  private id: string;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private keptVersion = "";
  private isKept = false;
  private isUnable = false;
  /** What is offered now, by its names and times. */
  private offered = "";
  /** What other pages had left when it was last looked for. */
  private leftBefore: ReadonlySet<string> = new Set();
  private readonly drafts: Promise<Drafts | undefined>;
  /** One after the other. */
  private work: Promise<void> = Promise.resolve();

  /** @param own the draft that this page has opened with, and claimed */
  constructor(
    private readonly parts: DraftKeeperParts,
    own?: string,
  ) {
    this.id = own ?? crypto.randomUUID();
    this.isKept = own !== undefined;
    if (own === undefined) void claimDraft(this.id);
    rememberOwnDraft(this.id);
    this.drafts = openDrafts().catch(() => undefined);
    void this.offerLeft();
    void this.clearSaved();
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden" && this.timer !== undefined) void this.keepNow();
    });
    setInterval(() => {
      if (document.visibilityState === "visible") void this.offerNew();
    }, LOOK_MILLISECONDS);
  }

  /** Another workbook is open, and is kept from now on; the one before is saved, or given up. */
  begin(): void {
    this.stop();
    const { id, isKept } = this;
    this.id = crypto.randomUUID();
    this.keptVersion = "";
    this.isKept = false;
    void claimDraft(this.id);
    rememberOwnDraft(this.id);
    if (isKept) void this.enqueue((drafts) => drafts.remove(id));
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
    this.stop();
    const { version, bytes } = this.parts.original();
    const file = version === this.keptVersion ? undefined : bytes();
    this.keptVersion = version;
    return this.put({ ...this.parts.current(), id: this.id, time: Date.now(), isChanged: true }, file);
  }

  /** The workbook is as this file has it: just opened, or just saved. */
  keepFile({ name, place }: Pick<Draft, "name" | "place">, file: Uint8Array): Promise<void> {
    this.stop();
    // The next change is kept with the package behind the grid, which may be another.
    this.keptVersion = "";
    const own = { id: this.id, name, ...(place === undefined ? {} : { place }) };
    return this.put({ ...own, time: Date.now(), isChanged: false, opening: undefined }, file);
  }

  private put(draft: Draft, file: Uint8Array | undefined): Promise<void> {
    this.isKept = true;
    return this.enqueue(async (drafts) => {
      await drafts.keep(draft, file);
      this.tellUnable(false);
    });
  }

  private stop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  async load(id: string): ReturnType<Drafts["load"]> {
    return (await this.drafts)?.load(id);
  }

  async remove(id: string): Promise<void> {
    await this.enqueue((drafts) => drafts.remove(id));
    await this.offerLeft();
  }

  /** Says that a draft that another page has left is this page's from now on. False where a page has it open again. */
  claim(id: string): Promise<boolean> {
    return claimDraft(id);
  }

  private async left(): Promise<readonly DraftHeading[]> {
    const drafts = await this.drafts;
    const left = (await drafts?.left().catch(() => [])) ?? [];
    return left.filter(({ id }) => id !== this.id);
  }

  private offer(left: readonly DraftHeading[]): void {
    const unsaved = left.filter(({ isChanged }) => isChanged !== false);
    const key = unsaved.map(({ id, time }) => `${id} ${String(time)}`).join();
    // Buttons that stay the same stay where they are: one of them may just be pressed.
    if (key === this.offered) return;
    this.offered = key;
    this.parts.offer(unsaved);
  }

  private async offerLeft(): Promise<void> {
    const left = await this.left();
    this.leftBefore = new Set(left.map(({ id }) => id));
    this.offer(left);
  }

  /**
   * Another page may have been closed since, and have left something; the browser says so only a moment after it is gone.
   * What was left a look ago as well: a page that is loaded anew has its own open again by then.
   */
  private async offerNew(): Promise<void> {
    const left = await this.left();
    const before = this.leftBefore;
    this.leftBefore = new Set(left.map(({ id }) => id));
    this.offer(left.filter(({ id }) => before.has(id)));
  }

  /** Saved files that nobody has open any more. Asked once: a page that is loaded anew has its own open again in a moment. */
  private async clearSaved(): Promise<void> {
    for (const { id, isChanged } of await this.left()) {
      if (isChanged === false) void this.enqueue((kept) => kept.remove(id));
    }
  }

  private enqueue(work: (drafts: Drafts) => Promise<void>): Promise<void> {
    this.work = this.work
      .then(async () => {
        const drafts = await this.drafts;
        if (drafts === undefined) throw new Error("The browser keeps nothing.");
        await work(drafts);
      })
      .catch(() => {
        // Nothing of it is there: the next try is a whole one.
        this.keptVersion = "";
        this.tellUnable(true);
      });
    return this.work;
  }

  private tellUnable(isUnable: boolean): void {
    if (isUnable === this.isUnable) return;
    this.isUnable = isUnable;
    this.parts.unable(isUnable);
  }
}
