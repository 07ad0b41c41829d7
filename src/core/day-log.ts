/**
 * The attempts of one athlete's one trick and the days they were made on. A log's rows may stand in any order: newest
 * first, or last week's paper typed at the foot. What is asked of it is answered in the order of the days, and within a
 * day in that of the log.
 */
import { AttemptLog } from "./attempt-log";

/** Entries of the log that were made on one day. */
interface DayPiece {
  /** Whole sheet serial. */
  readonly day: number;
  /** The first entry, and the one after the last. */
  readonly from: number;
  readonly to: number;
}

/** More than any log has; with the largest day of a sheet before it, it is still a whole number that a float holds. */
const MOST_PIECES = 2 ** 30;

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
    const places = this.placesInOrder();
    for (let place = 0; place < places.length; place++) {
      const piece = places[place] as number;
      log.addFrom(this.asRead, this.starts[piece] as number, this.starts[piece + 1] ?? this.asRead.entries);
    }
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

  private orderedPieces(): DayPiece[] {
    const pieces = this.pieces();
    return Array.from(this.placesInOrder(), (place) => pieces[place] as DayPiece);
  }

  /**
   * The pieces' places in the order of their days, pieces of one day as they stand in the log. As numbers that hold day
   * and place, since a log in no order has a piece a row, and a million objects would have to be sorted.
   */
  private placesInOrder(): Float64Array {
    const { days } = this;
    const places = new Float64Array(days.length);
    for (let place = 0; place < days.length; place++) places[place] = (days[place] as number) * MOST_PIECES + place;
    places.sort();
    for (let index = 0; index < places.length; index++) places[index] = (places[index] as number) % MOST_PIECES;
    return places;
  }
}
