/** The Tempo part: counts per minute by tapping, airtime by holding a button or from film, and the way into a cell. */
import type { Measured } from "../../../core/film";
import { handAirtime, isHold, tapTempo } from "../../../core/tempo";
import type { LengthUnit } from "../../../core/toss";
import { element, say, setAttribute } from "../../ui/dom";
import type { WorkbookHost } from "../../host/host";
import type { Part, PartContext } from "../part";
import { reasonOf } from "../../words/reason";
import { texts } from "../../words/texts";
import { listenToPresses } from "./press";
import {
  airtimeReading,
  readFilm,
  readingInWords,
  readingOf,
  riseReading,
  type FilmField,
  type FilmForm,
  type Reading,
} from "./readings";

export const tempoPart: Part = {
  id: "tempo",
  get title() {
    return texts.tempoTitle;
  },
  mount,
};

const unitDraft = "tempo.unit";
const rateDraft = "tempo.frames-per-second";
const usualRate = "30";

function mount(panel: HTMLElement, { host, drafts }: PartContext): void {
  panel.append(element("h2", {}, texts.tempoTitle), countsSection(host));
  const unit = unitField(drafts.read(unitDraft) === "ft" ? "ft" : "m");
  const hand = handSection(host, unit.value);
  const film = filmSection(host, unit.value, drafts.read(rateDraft));
  unit.select.addEventListener("change", () => {
    drafts.keep(unitDraft, unit.value());
    hand.show();
    film.show();
  });
  film.rate.addEventListener("change", () => void drafts.keep(rateDraft, film.rate.value));
  panel.append(
    unit.block,
    hand.block,
    film.block,
    element("p", { class: "twirl-quiet twirl-field" }, texts.plusMinusMeaning),
  );
}

/* ---- counts per minute ---- */

function countsSection(host: WorkbookHost): HTMLElement {
  const tap = element("button", { type: "button", class: "twirl-press" }, texts.tap);
  const again = element("button", { type: "button", class: "twirl-button" }, texts.startAgain);
  const result = resultLine(host, [{ words: texts.insertCounts, done: texts.countsInserted }], [again]);
  let taps: number[] = [];

  const show = (): void => {
    const tempo = tapTempo(taps);
    if (!tempo) return result.show(taps.length === 0 ? texts.tapHint : texts.tapOn(taps.length), []);
    const reading = readingOf(tempo.countsPerMinute, tempo.uncertainty, 1);
    result.show(texts.tempoIs(readingInWords(reading), tempo.intervals, tempo.outliers), [reading]);
  };
  const add = (seconds: number): void => {
    taps.push(seconds);
    // The latest two eights count; the rest is let go.
    taps = taps.slice(-40);
    show();
  };
  listenToPresses(tap, { pressed: add, clicked: add });
  again.addEventListener("click", () => {
    taps = [];
    show();
    tap.focus();
  });
  show();
  return section(texts.countsTitle, texts.countsHint, tap, result.block);
}

/* ---- airtime by hand ---- */

interface AirtimeSection {
  readonly block: HTMLElement;
  /** Shows the result anew, in the unit that is chosen now. */
  show(): void;
}

function handSection(host: WorkbookHost, unit: () => LengthUnit): AirtimeSection {
  const hold = element(
    "button",
    { type: "button", class: "twirl-press twirl-hold", "aria-pressed": "false" },
    texts.hold,
  );
  const takeBack = element("button", { type: "button", class: "twirl-button" }, texts.takeBack);
  const again = element("button", { type: "button", class: "twirl-button" }, texts.startAgain);
  const result = airtimeLine(host, unit, [takeBack, again]);
  let holds: readonly number[] = [];
  let since: number | null = null;

  const show = (words: string | null = null): void => {
    setAttribute(hold, "aria-pressed", since === null ? "false" : "true");
    hold.textContent = since === null ? texts.hold : texts.inTheAir;
    const last = holds.at(-1);
    if (last === undefined) result.show(null, words ?? texts.holdHint);
    else result.show(handAirtime(holds), words ?? texts.holdsTaken(last.toFixed(2), holds.length));
  };
  const begin = (seconds: number): void => {
    since = seconds;
    show();
  };
  const end = (seconds: number): void => {
    if (since === null) return;
    const held = seconds - since;
    since = null;
    if (isHold(held)) holds = [...holds, held];
    show(isHold(held) ? null : texts.notAToss);
  };
  listenToPresses(hold, {
    pressed: begin,
    released: end,
    abandoned: () => {
      since = null;
      show(texts.holdAbandoned);
    },
    // Without a press there is nothing to hold: the first click is the release of the baton, the second its catch.
    clicked: (seconds) => (since === null ? begin(seconds) : end(seconds)),
  });
  takeBack.addEventListener("click", () => {
    holds = holds.slice(0, -1);
    show();
  });
  again.addEventListener("click", () => {
    holds = [];
    since = null;
    show();
    hold.focus();
  });
  show();
  return {
    block: section(texts.handTitle, texts.handHint, hold, result.block),
    show: () => show(),
  };
}

/* ---- airtime from film ---- */

function filmSection(
  host: WorkbookHost,
  unit: () => LengthUnit,
  keptRate: unknown,
): AirtimeSection & { readonly rate: HTMLInputElement } {
  const fields: Readonly<Record<FilmField, FilmControl>> = {
    release: filmControl("release", texts.releaseFrameLabel, ""),
    catch: filmControl("catch", texts.catchFrameLabel, ""),
    rate: filmControl("rate", texts.frameRateLabel, typeof keptRate === "string" ? keptRate : usualRate),
  };
  const result = airtimeLine(host, unit);
  const all = Object.values(fields);

  const show = (): void => {
    const form: FilmForm = {
      release: fields.release.input.value,
      catch: fields.catch.input.value,
      rate: fields.rate.input.value,
    };
    const film = readFilm(form);
    for (const name of ["release", "catch", "rate"] as const) {
      fields[name].setProblem(film.kind === "wrong" ? (film.problems[name] ?? null) : null);
    }
    if (film.kind === "measured") result.show(film.airtime, null);
    else
      result.show(
        null,
        film.kind === "wrong" ? texts.problemsFound(Object.keys(film.problems).length) : texts.filmHint,
      );
  };
  // Not at every key: half a number is not yet a mistake.
  for (const { input } of all) input.addEventListener("change", show);
  show();
  return {
    block: section(
      texts.filmTitle,
      texts.filmExplained,
      element("div", { class: "twirl-pair" }, fields.release.block, fields.catch.block),
      fields.rate.block,
      result.block,
    ),
    show,
    rate: fields.rate.input,
  };
}

interface FilmControl {
  readonly block: HTMLElement;
  readonly input: HTMLInputElement;
  setProblem(words: string | null): void;
}

function filmControl(name: FilmField, label: string, value: string): FilmControl {
  const id = `twirl-film-${name}`;
  const problem = element("p", { id: `${id}-problem`, class: "twirl-problem" });
  const input = element("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", value });
  return {
    block: element("div", { class: "twirl-field" }, element("label", { for: id }, label), input, problem),
    input,
    setProblem: (words) => {
      problem.textContent = words ?? "";
      setAttribute(input, "aria-invalid", words === null ? null : "true");
      setAttribute(input, "aria-describedby", words === null ? null : problem.id);
    },
  };
}

/* ---- results ---- */

interface Insertable {
  readonly words: string;
  readonly done: (value: string, address: string) => string;
}

interface ResultLine {
  readonly block: HTMLElement;
  /** The words, and the readings that can go into a cell: none, or one for each that can be inserted. */
  show(words: string, readings: readonly Reading[]): void;
}

/** @param further buttons that stand beside those that insert */
function resultLine(
  host: WorkbookHost,
  insertables: readonly Insertable[],
  further: readonly HTMLElement[] = [],
): ResultLine {
  const words = element("p", { role: "status", class: "twirl-result" });
  const inserted = element("p", { role: "status", class: "twirl-status" });
  let readings: readonly Reading[] = [];
  const buttons = insertables.map((insertable, index) => {
    const button = element("button", { type: "button", class: "twirl-button" }, insertable.words);
    button.addEventListener("click", () => {
      const reading = readings[index];
      if (reading === undefined) return say(inserted, texts.nothingMeasured);
      host.insertValue(reading.value).then(
        (address) => say(inserted, insertable.done(reading.value.toFixed(reading.decimals), address)),
        (cause: unknown) => say(inserted, texts.functionNotInserted(reasonOf(cause))),
      );
    });
    return button;
  });
  return {
    block: element("div", {}, words, element("div", { class: "twirl-actions" }, ...buttons, ...further), inserted),
    show: (shown, found) => {
      readings = found;
      if (words.textContent !== shown) words.textContent = shown;
      inserted.textContent = "";
      for (const [index, button] of buttons.entries()) {
        setAttribute(button, "aria-disabled", found[index] === undefined ? "true" : null);
      }
    },
  };
}

interface AirtimeLine {
  readonly block: HTMLElement;
  show(airtime: Measured | null, words: string | null): void;
}

function airtimeLine(host: WorkbookHost, unit: () => LengthUnit, further: readonly HTMLElement[] = []): AirtimeLine {
  const line = resultLine(
    host,
    [
      { words: texts.insertAirtime, done: texts.airtimeInserted },
      { words: texts.insertRise, done: texts.riseInserted },
    ],
    further,
  );
  return {
    block: line.block,
    show: (airtime, words) => {
      if (airtime === null) return line.show(words ?? "", []);
      const [seconds, rise] = [airtimeReading(airtime), riseReading(airtime, unit())];
      const measured = texts.airtimeIs(readingInWords(seconds), readingInWords(rise), unit());
      line.show(words === null ? measured : `${measured} ${words}`, [seconds, rise]);
    },
  };
}

/* ---- the rest ---- */

function unitField(chosen: LengthUnit): { block: HTMLElement; select: HTMLSelectElement; value: () => LengthUnit } {
  const select = element(
    "select",
    { id: "twirl-tempo-unit" },
    element("option", { value: "m" }, texts.unitMetres),
    element("option", { value: "ft" }, texts.unitFeet),
  );
  select.value = chosen;
  return {
    block: element(
      "div",
      { class: "twirl-line twirl-field" },
      element("label", { for: select.id }, texts.heightsIn),
      select,
    ),
    select,
    value: () => (select.value === "ft" ? "ft" : "m"),
  };
}

function section(title: string, hint: string, ...content: HTMLElement[]): HTMLElement {
  return element(
    "section",
    { class: "twirl-tempo" },
    element("h3", {}, title),
    element("p", { class: "twirl-hint" }, hint),
    ...content,
  );
}
