/**
 * The attempts of one athlete's one trick and the days they were made on. A log's rows may stand in any order: newest
 * first, or last week's paper typed at the foot. What is asked of it is answered in the order of the days, and within a
 * day in that of the log.
 */
import { AttemptLog } from "./attempt-log";

/** Entries of the log that were made on one day. */
export interface DayPiece {
  /** Whole sheet serial. */
  readonly day: number;
  /** The first entry, and the one after the last. */
  readonly from: number;
  readonly to: number;
}

export class DayLog {
  /** As the rows stand: rows are added here, and `noteDay` says when they were made. */
  readonly asRead = new AttemptLog();
  /** Whole sheet serial of the latest day with an attempt; 0 without one. */
  lastDay = 0;
  /** A piece for each time that the rows go over to another day: its day, and its first entry. */
  private readonly days: number[] = [];
  private readonly starts: number[] = [];
  private isInOrder = true;

  /** Says that the entries from the given one on were made on that day. */
  noteDay(day: number, from: number): void {
    if (from === this.asRead.entries) return;
    const before = this.days[this.days.length - 1];
    if (day === before) return;
    this.days.push(day);
    this.starts.push(from);
    if (day > this.lastDay) this.lastDay = day;
    else this.isInOrder = false;
  }

  /** The attempts in the order of their days. A log whose rows stand in that order pays no sort. */
  inOrder(): AttemptLog {
    if (this.isInOrder) return this.asRead;
    const log = new AttemptLog();
    for (const { from, to } of this.orderedPieces()) log.addFrom(this.asRead, from, to);
    return log;
  }

  /** A piece for each day with an attempt, earliest first; its entries are those of `inOrder()`. */
  byDay(): DayPiece[] {
    const days: DayPiece[] = [];
    let entry = 0;
    for (const { day, from, to } of this.isInOrder ? this.pieces() : this.orderedPieces()) {
      const before = days[days.length - 1];
      const next = entry + to - from;
      if (before?.day === day) days[days.length - 1] = { day, from: before.from, to: next };
      else days.push({ day, from: entry, to: next });
      entry = next;
    }
    return days;
  }

  /** A log of the same attempts, to which more can be added without changing this one. */
  copy(): DayLog {
    const log = new DayLog();
    for (const piece of this.pieces()) {
      const start = log.asRead.entries;
      log.asRead.addFrom(this.asRead, piece.from, piece.to);
      log.noteDay(piece.day, start);
    }
    return log;
  }

  private pieces(): DayPiece[] {
    return this.days.map((day, index) => ({
      day,
      from: this.starts[index] as number,
      to: this.starts[index + 1] ?? this.asRead.entries,
    }));
  }

  /** Sorting keeps pieces of one day as they stand in the log. */
  private orderedPieces(): DayPiece[] {
    return this.pieces().sort((one, other) => one.day - other.day);
  }
}
