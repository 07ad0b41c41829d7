/** Whether another tab or window of this page has the same file open: each tells the others, and sees when one is gone. */

interface Word {
  readonly kind: "opened" | "answer" | "left";
  /** The page that says it. */
  readonly page: string;
  readonly handle?: FileSystemFileHandle;
}

const CHANNEL = "twirl-ledger-files";
const LOCK_START = "twirl-ledger-window ";

export class SameFile {
  private readonly own = crypto.randomUUID();
  private readonly channel = new BroadcastChannel(CHANNEL);
  private handle: FileSystemFileHandle | undefined;
  /** Pages with the same file, each with what ends the waiting for its end. */
  private readonly others = new Map<string, AbortController>();
  private readonly living: Promise<unknown>;

  /** @param show is told whether another page has the same file, when that changes */
  constructor(private readonly show: (isShared: boolean) => void) {
    // Held for as long as the page lives. Whoever waits for it hears of a crash too.
    this.living = new Promise((resolve) => {
      navigator.locks
        .request(LOCK_START + this.own, () => {
          resolve(undefined);
          return new Promise(() => undefined);
        })
        .catch(resolve);
    });
    this.channel.addEventListener("message", ({ data }: MessageEvent<Word>) => void this.hear(data));
  }

  /** Another file is open from now on; undefined where the workbook belongs to none. */
  follow(handle: FileSystemFileHandle | undefined): void {
    if (handle === this.handle) return;
    const before = this.handle;
    this.handle = handle;
    for (const page of [...this.others.keys()]) this.remove(page);
    if (handle !== undefined) this.say({ kind: "opened", page: this.own, handle });
    else if (before !== undefined) this.say({ kind: "left", page: this.own });
  }

  private say(word: Word): void {
    // Not before the lock is held: it would be taken for the lock of a page that is gone.
    void this.living.then(() => this.channel.postMessage(word));
  }

  private async hear({ kind, page, handle }: Word): Promise<void> {
    const mine = this.handle;
    const isSame = mine !== undefined && handle !== undefined && (await mine.isSameEntry(handle));
    if (mine !== this.handle) return;
    if (!isSame) return this.remove(page);
    this.add(page);
    if (kind === "opened") this.say({ kind: "answer", page: this.own, handle: mine });
  }

  private add(page: string): void {
    if (this.others.has(page)) return;
    const waiting = new AbortController();
    this.others.set(page, waiting);
    navigator.locks
      .request(LOCK_START + page, { signal: waiting.signal }, () => this.remove(page))
      // The waiting was ended: the page has another file open now.
      .catch(() => undefined);
    this.show(true);
  }

  private remove(page: string): void {
    const waiting = this.others.get(page);
    if (waiting === undefined) return;
    this.others.delete(page);
    waiting.abort();
    if (this.others.size === 0) this.show(false);
  }
}
