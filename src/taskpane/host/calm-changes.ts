/**
 * Tells that the workbook has changed, once things are calm: not at each key, and not before the last telling is done. The
 * longer it takes to read the workbook anew, the longer the next reading waits, so that a long log is not read all the time.
 */
export type ChangeListener = () => Promise<void> | void;

interface CalmChangesParts {
  /** Resolves when the workbook has nothing more urgent to work out. */
  readonly calm?: () => Promise<void>;
  /** How long nothing must have changed, in milliseconds. */
  readonly pause?: number;
  /** The time in milliseconds. */
  readonly now?: () => number;
}

const PAUSE_MILLISECONDS = 400;
/** Of all the time at most a fifth goes into reading. */
const PAUSES_A_READING = 4;

export class CalmChanges {
  private readonly listeners = new Set<ChangeListener>();
  private readonly calm: () => Promise<void>;
  private readonly pause: number;
  private readonly now: () => number;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private telling = false;
  private again = false;
  /** How long the listeners took last, in milliseconds. */
  private took = 0;

  constructor({
    calm = () => Promise.resolve(),
    pause = PAUSE_MILLISECONDS,
    now = () => performance.now(),
  }: CalmChangesParts = {}) {
    this.calm = calm;
    this.pause = pause;
    this.now = now;
  }

  /** Answers the way to be told no more. */
  add(listener: ChangeListener): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  changed(): void {
    if (this.listeners.size === 0) return;
    if (this.telling) {
      this.again = true;
      return;
    }
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.tell(), Math.max(this.pause, this.took * PAUSES_A_READING));
  }

  private async tell(): Promise<void> {
    this.telling = true;
    this.again = false;
    await this.calm();
    const begun = this.now();
    for (const listener of [...this.listeners]) {
      try {
        await listener();
      } catch {
        // Each listener says itself what it could not read; one of them does not keep the others from looking.
        continue;
      }
    }
    this.took = this.now() - begun;
    this.telling = false;
    if (this.again) this.changed();
  }
}
