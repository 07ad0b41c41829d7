/** The words of a day in English, French, Spanish, German, Italian, Dutch and Portuguese, as `plainWords` writes them. */

/** January first. */
const MONTHS = [
  "january janvier enero januar gennaio januari janeiro",
  "february fevrier febrero februar febbraio februari fevereiro",
  "march mars marzo marz maerz mrz maart mrt marco",
  "april avril abril aprile",
  "may mai mayo maggio mei maio",
  "june juin junio juni giugno junho",
  "july juillet julio juli luglio julho",
  "august aout agosto augustus",
  "september septembre septiembre settembre setembro",
  "october octobre octubre oktober ottobre outubro",
  "november novembre noviembre novembro",
  "december decembre diciembre dezember dicembre dezembro",
];

/** Sunday first. */
const WEEKDAYS = [
  "sunday dimanche domingo sonntag domenica zondag",
  "monday lundi lunes montag lunedi maandag segunda",
  "tuesday mardi martes dienstag martedi dinsdag terca",
  "wednesday mercredi miercoles mittwoch mercoledi woensdag quarta",
  "thursday jeudi jueves donnerstag giovedi donderdag quinta",
  "friday vendredi viernes freitag venerdi vrijdag sexta",
  "saturday samedi sabado samstag sonnabend sabato zaterdag",
];

/** Shorter ones could be anything; days of the week are cut to two letters. */
const SHORTEST_MONTH = 3;
const SHORTEST_WEEKDAY = 2;

const months = byStart(MONTHS, SHORTEST_MONTH);
const weekdays = byStart(WEEKDAYS, SHORTEST_WEEKDAY);

/** What stands around a day: `13th of October`, `1er août`, `13 de outubro`, `terça-feira`. */
const PARTICLES = new Set(
  "st nd rd th er re e o a º ª the of on le de del du da do di d den der dem am el il feira".split(" "),
);

function byStart(names: readonly string[], shortest: number): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  names.forEach((words, index) => {
    for (const word of words.split(" ")) {
      for (let length = Math.min(shortest, word.length); length <= word.length; length += 1) {
        const start = word.slice(0, length);
        const known = found.get(start) ?? [];
        if (!known.includes(index)) known.push(index);
        found.set(start, known);
      }
    }
  });
  return found;
}

/** The months, from 0 for January, that a word or its beginning names: several for `jui`, none for other words. */
export function monthsNamed(word: string): readonly number[] {
  return months.get(word) ?? [];
}

/** The days of the week, from 0 for Sunday, that a word or its beginning names: `di` is one day here and another there. */
export function weekdaysNamed(word: string): readonly number[] {
  return weekdays.get(word) ?? [];
}

export function isDayParticle(word: string): boolean {
  return PARTICLES.has(word);
}
