/** The ways in which clubs write days down, as `drawn-logs.ts` draws from. */
import type { Corrections } from "../../src/core/log-layout/find-layout";
import { day } from "../core/log-layout/sheets";
import type { Draw } from "./draw";
import type { Written } from "./practised";

export interface DayWay {
  readonly name: string;
  readonly cell: (iso: string, index: number) => Written;
  readonly answers: Corrections;
  readonly unreadable: boolean;
}

export function drawDays(draw: Draw): DayWay {
  const parts = (iso: string): readonly [string, string, string] => {
    const [year = "", month = "", date = ""] = iso.split("-");
    return [year, month, date];
  };
  const plain: DayWay = { name: "real days", cell: (iso) => day(iso), answers: {}, unreadable: false };
  if (draw.chance(0.6)) return plain;
  const separator = draw.of([".", "/", "-"]);
  const bare = (text: string): string => String(Number(text));
  switch (draw.whole(0, 5)) {
    case 0:
      return {
        ...plain,
        name: "days as text, the day first",
        cell: (iso) => {
          const [year, month, date] = parts(iso);
          return [bare(date), bare(month), year].join(separator);
        },
        answers: { dateText: { order: "dmy", separator } },
      };
    case 1:
      return {
        ...plain,
        name: "days as text, the month first",
        cell: (iso) => {
          const [year, month, date] = parts(iso);
          return [bare(month), bare(date), year].join("/");
        },
        answers: { dateText: { order: "mdy", separator: "/" } },
      };
    case 2:
      return { ...plain, name: "days as text, the year first", cell: (iso) => iso, answers: { dateText: { order: "ymd", separator: "-" } } }; // prettier-ignore
    case 3:
      return { ...plain, name: "days in words", cell: (iso) => new Date(`${iso}T00:00:00Z`).toUTCString().slice(0, 16), unreadable: true }; // prettier-ignore
    case 4:
      return { ...plain, name: "time stamps", cell: (iso) => `${iso}T17:30:00Z`, unreadable: true };
    default:
      return { ...plain, name: "numbers of weeks", cell: (_, index) => 1 + Math.floor(index / 4), unreadable: true };
  }
}
