/**
 * What headings of practice logs are called, in English, French, Spanish, German, Italian, Dutch and Portuguese; without
 * accents, since headings are compared without them. Common usage, no source.
 */
import { plainWords } from "./plain-words";

/** What a heading can say that its column holds. `other` is something the board has no use for. */
export type HeadingRole =
  "date" | "athlete" | "trick" | "stage" | "marks" | "caught" | "attempts" | "dropped" | "bailed" | "other";

interface Words {
  /** Say it wherever they stand in a heading. */
  readonly sure: string;
  /** Say it only where nothing surer does: words such as name, number, total. */
  readonly likely: string;
}

const WORDS: Readonly<Record<HeadingRole, Words>> = {
  date: {
    sure: "date dates fecha fechas datum data tag giorno dia jour dag trainingstag practiced",
    likely: "day when practice session training entrainement entrenamiento allenamento treino wann quand cuando quando",
  },
  athlete: {
    sure:
      "athlete athletes twirler twirlers gymnast student pupil child kid member " +
      "athletin athleten sportler sportlerin schuler schulerin turner turnerin twirlerin madchen kind " +
      "eleve eleves twirleuse twirleur batoniste gymnaste enfant licenciee " +
      "atleta atletas alumna alumno deportista gimnasta nina " +
      "allieva allievo ginnasta bambina " +
      "atleet sporter leerling meisje " +
      "aluna aluno ginasta menina",
    likely:
      "name names who initials girl player person nom prenom qui nombre iniciales quien wer vorname nome iniziali chi naam wie initialen iniciais quem initiales",
  },
  trick: {
    sure:
      "trick tricks skill skills toss element elements figure figures exercise move " +
      "lancer lance difficulte exercice mouvement " +
      "truco trucos lanzamiento elemento elementos figura figuras ejercicio lanzada movimiento " +
      "wurf ubung figur kunststuck wurfe " +
      "lancio lanci esercizio movimento " +
      "truc worp oefening gooi " +
      "truque lancamento exercicio",
    likely: "what content was quoi que che cosa wat",
  },
  stage: {
    sure: "stage phase step etape stade etapa fase stufe stadium schritt stadio tappa stap lernstufe",
    likely: "level context niveau nivel livello where kontext contexto contesto",
  },
  marks: {
    sure:
      "marks mark outcome result results score scores record tally tallies catches/drops c/d " +
      "resultat resultats marques resultado resultados marcas ergebnis ergebnisse markierung strichliste " +
      "risultato risultati segni resultaat resultaten",
    likely: "attempts tries essais intentos versuche tentativi prove pogingen tentativas series set sets ratio",
  },
  caught: {
    sure:
      "caught catch catches catched made hit hits landed success successes successful clean " +
      "attrape attrapes attrapees rattrape rattrapes rattrapees reussi reussis reussie reussies reussites receptions " +
      "cogidas cogidos atrapadas atrapados capturas aciertos logrados logradas recogidas conseguidas conseguidos exitos " +
      "gefangen gefangene treffer geschafft erfolge erfolgreich " +
      "prese presi presa preso riusciti riuscite catture " +
      "gevangen gelukt vangsten raak " +
      "apanhadas apanhados agarradas agarrados pegas acertos pegadas",
    likely: "ok good bons bonnes bien gut goed bem yes",
  },
  attempts: {
    sure:
      "attempts attempt attempted tries tried throws tosses thrown reps repetitions tentatives tentative essais " +
      "intentos intento tentativas lanzamientos repeticiones versuche versuch wurfe wiederholungen " +
      "tentativi tentativo prove lanci ripetizioni pogingen poging worpen herhalingen lancamentos repeticoes",
    likely:
      "total of out number count gesamt anzahl insgesamt totale totaal aantal numero nombre veces volte keer vezes",
  },
  dropped: {
    sure:
      "drop drops dropped miss misses missed fail fails failed lost " +
      "chute chutes tombe tombes tombees rate rates ratees echec echecs perdu perdus " +
      "caida caidas fallo fallos fallidos fallidas perdidas " +
      "gefallen fallengelassen fehler fehlversuche verloren daneben " +
      "cadute caduta caduti errori falliti fallite persi perse " +
      "gevallen gemist missers fouten " +
      "queda quedas falha falhas falhadas erros",
    likely: "no non nein nee nao bad",
  },
  bailed: {
    sure:
      "bail bails bailed balk balks abandoned abandon abandons abandonnes abandonnees abandonados abandonadas " +
      "abgebrochen abgebrochene abbruche abbruch abbandonati abbandonate afgebroken desistencias",
    likely: "",
  },
  other: {
    sure:
      "goal goals target targets aim cumulative cumul cumule running remaining " +
      "objectif objectifs but cible objetivo objetivos meta ziel ziele soll obiettivo obiettivi doel doelen alvo " +
      "acumulado acumulados kumuliert kumulativ laufend cumulato cumulativo progressivo lopend cumulatief " +
      "note notes comment comments remark remarks coach trainer place hall gym minutes minute min duration week weekday id rate percent % streak music video link " +
      "weather hand mood born birth birthday birthdate naissance nacimiento geboren geburtsdatum geburtstag nascita geboorte geboortedatum nascimento remarque remarques commentaire commentaires lieu salle duree entraineur entraineuse semaine taux pourcentage main " +
      "nota notas observaciones observacion comentario comentarios lugar duracion entrenador entrenadora semana porcentaje mano minutos " +
      "bemerkung bemerkungen notiz notizen kommentar ort halle dauer minuten woche quote prozent trainerin wochentag " +
      "osservazioni osservazione commento luogo palestra durata minuti settimana percentuale allenatrice allenatore " +
      "opmerking opmerkingen plaats zaal duur weekdag percentage trainster " +
      "observacao observacoes local duracao treinadora treinador percentagem mao age category",
    likely: "time nr zeit uhrzeit heure hora ora tijd index",
  },
};

interface Match {
  readonly role: HeadingRole;
  /** 0 to 1. */
  readonly score: number;
}

const ROLES = Object.keys(WORDS) as HeadingRole[];

const lookUp = (() => {
  const byWord = new Map<string, { readonly role: HeadingRole; readonly sure: boolean }[]>();
  for (const role of ROLES) {
    for (const sure of [true, false]) {
      for (const word of (sure ? WORDS[role].sure : WORDS[role].likely).split(" ")) {
        const found = byWord.get(word) ?? [];
        found.push({ role, sure });
        byWord.set(word, found);
      }
    }
  }
  return byWord;
})();

/** Longer texts are titles or notes, and no heading of a column. */
const MOST_WORDS = 8;

/**
 * What a heading says, each role with a score: 1 for a heading that is one sure word, less where others stand beside it
 * or the word is not sure. `Trick name` is a trick, since `name` is the less sure word.
 */
export function headingMatches(heading: string): readonly Match[] {
  const words = plainWords(heading);
  if (words.length === 0 || words.length > MOST_WORDS) return [];
  const scores = new Map<HeadingRole, number>();
  const raise = (role: HeadingRole, score: number): void => {
    if (score > (scores.get(role) ?? 0)) scores.set(role, score);
  };
  for (const [index, word] of words.entries()) {
    for (const { role: said, sure } of lookUp.get(word) ?? []) {
      const alone = words.length === 1;
      const role = said === "caught" && isNegated(heading, words, index) ? "dropped" : said;
      // The first of several words is mostly what the heading is about: "Trick and stage", "Minutes of practice".
      raise(role, sure ? (alone ? 1 : index === 0 ? 0.9 : 0.8) : alone ? 0.6 : 0.35);
    }
  }
  return [...scores].map(([role, score]) => ({ role, score }));
}

const BIRTH = new Set(
  "born birth birthday birthdate naissance nacimiento geboren geburtsdatum geburtstag nascita geboorte geboortedatum nascimento".split(" "), // prettier-ignore
);

/** Days of birth are days, and none of a practice. */
export function saysBirth(heading: string): boolean {
  return plainWords(heading).some((word) => BIRTH.has(word));
}

const NO_PRACTICE = new Set(
  (
    "holiday holidays vacation vacations break rest off sick ill absent away injured cancelled " +
    "ferien urlaub krank frei ausgefallen verletzt vacances conge malade absente repos annule blessee " +
    "vacaciones festivo enferma ausente descanso vacanza vacanze malata assente riposo vakantie ziek afwezig vrij " +
    "ferias doente folga no kein keine pas de sin niente geen sem practice training entrainement entrenamiento allenamento treino day"
  ).split(" "),
);
const NO_PRACTICE_LONGEST = 3;

/** Whether a text in the place of a name says that nobody practised: Holiday, no practice. */
export function saysNoPractice(text: string): boolean {
  const words = plainWords(text);
  const isSaid =
    words.some((word) => NO_PRACTICE.has(word) && !PRACTICE.has(word)) ||
    (words.length >= 2 && NEGATIONS.has(words[0] ?? ""));
  return isSaid && words.length <= NO_PRACTICE_LONGEST && words.every((word) => NO_PRACTICE.has(word));
}

/** Say nothing by themselves. */
const PRACTICE = new Set(
  "practice training entrainement entrenamiento allenamento treino day de pas sin no off".split(" "),
);

const NEGATIONS = new Set("not nicht non niet nao pas no".split(" "));

/** "Not caught" is dropped; "No. caught" is how many were caught. */
function isNegated(heading: string, words: readonly string[], index: number): boolean {
  const before = words[index - 1];
  if (before === undefined || !NEGATIONS.has(before)) return false;
  return before !== "no" || !/\bno\.|n[°º]/i.test(heading);
}

/** What one of the numbers of a tally can be. */
export type TallyPart = "caught" | "attempts" | "dropped";

/**
 * The parts that a heading names, in its order, each once: `Caught/tried` names two. Of words that are less sure only
 * those count that no surer one stands beside.
 */
export function headingParts(as: string): readonly TallyPart[] {
  // "No. caught" counts what is caught: the point makes a number of what would be a not.
  const heading = as.replace(/\bno\.\s*/gi, "");
  const words = plainWords(heading);
  if (/^\s*c\s*\/\s*d\s*$/i.test(heading)) return ["caught", "dropped"];
  const named = (sureOnly: boolean): readonly TallyPart[] => {
    const parts: TallyPart[] = [];
    for (const [index, word] of words.entries()) {
      for (const { role, sure } of lookUp.get(word) ?? []) {
        if (role !== "caught" && role !== "attempts" && role !== "dropped") continue;
        if (sureOnly && !sure) continue;
        const part = role === "caught" && isNegated(heading, words, index) ? "dropped" : role;
        if (!parts.includes(part)) parts.push(part);
      }
    }
    return parts;
  };
  const sure = named(true);
  return sure.length > 0 && !heading.includes("/") ? sure : named(false);
}

export function headingScore(heading: string, role: HeadingRole): number {
  return headingMatches(heading).find((match) => match.role === role)?.score ?? 0;
}

/** Words beside the number in the heading of one attempt's column: `Attempt 3`, `T3`, `n° 3`. */
const NUMBERED =
  /^(?:\p{L}{1,2}|no|nr|attempt|try|toss|throw|rep|essai|lancer|tentative|intento|lanzamiento|versuch|wurf|prova|lancio|tentativo|poging|worp|tentativa|lancamento|set|series|serie|satz)? ?(\d{1,3})$/u;

/** The number in a heading of one attempt or set of several; null where it is none. */
export function attemptNumber(heading: string): number | null {
  const found = NUMBERED.exec(plainWords(heading).join(" "));
  return found ? Number(found[1]) : null;
}

/** What stands at the foot of a log, under the sums. */
const TOTALS = new Set(
  (
    "total totals sum subtotal average avg mean overall somme totaux moyenne suma totales promedio media gesamt summe " +
    "durchschnitt schnitt insgesamt mittelwert totale totali somma totaal som gemiddelde totais soma season saison"
  ).split(" "),
);

/** Of these, the words that no trick begins with: a media vuelta is half a turn. */
const STRONG_TOTALS = new Set(
  "total totals sum subtotal somme totaux suma totales gesamt summe insgesamt totale totali somma totaal som totais soma".split(
    " ",
  ),
);
/** What may stand beside them. */
const SPANS = new Set(
  (
    "week weekly day daily month monthly session practice the of for semaine hebdomadaire jour mois seance entrainement de du la par " +
    "semana semanal dia mes mensual sesion woche wochen tag monat der die das settimana settimanale giorno mese del della " +
    "weken dag maand van mensal total totals"
  ).split(" "),
);

/**
 * Whether a text in a row with attempts says that the row adds others up. A trick's own name may begin with a word that
 * means a sum elsewhere, so there only the plainest words count.
 */
export function namesSum(text: string, role: "athlete" | "trick" | "other"): boolean {
  const words = plainWords(text);
  if (words.length === 0 || words.length > 4) return false;
  const ends = [words[0] ?? "", words.at(-1) ?? ""];
  if (role === "athlete") return ends.some((word) => TOTALS.has(word));
  if (ends.some((word) => STRONG_TOTALS.has(word))) return role === "trick" || words.every(isOfSum);
  return words.length <= 2 && words.every(isOfSum) && words.some((word) => TOTALS.has(word));
}

const isOfSum = (word: string): boolean => TOTALS.has(word) || SPANS.has(word) || /^\d+$/.test(word);

/** Whether a text names a row of sums: its first word does, or its last one, and it has few. */
export function namesTotals(text: string): boolean {
  const words = plainWords(text);
  if (words.length === 0 || words.length > 4) return false;
  if (STRONG_TOTALS.has(words[0] ?? "") || STRONG_TOTALS.has(words.at(-1) ?? "")) return true;
  return words.every(isOfSum) && words.some((word) => TOTALS.has(word));
}

/** Words that tricks are called by, inside their names; they tell a trick from an athlete where no heading does. */
const TRICK_WORDS =
  /\b(spins?|turns?|toss|illusion|cartwheel|walkover|leap|rolls?|thumb|flat|blind|back|backhand|catch|double|triple|single|reverse|elbow|angel|horizontal|vertical|helicopter|spagat|rad|drehung|doppel|dreifach|wurf|lance|roue|tour|pirouette|saut|double|giro|giros|vuelta|rueda|salto|rondata|ruota|lancio|draai|radslag|roda|volta)\b/;

export function soundsLikeTrick(plain: string): boolean {
  return /\d/.test(plain) || TRICK_WORDS.test(plain);
}

/** The stages of learning as clubs write them. */
const STAGE_WORDS =
  /\b(body only|toss only|wall|joined|together|with music|whole|context|run through|runthrough|contest|routine|full out|section|isolated|alone|warm up|korper|kur|wand|verbunden|zusammen|mit musik|ganze|durchlauf|wettkampf|corps|seul|mur|ensemble|en musique|enchainement|competition|cuerpo|pared|rutina|junto|con musica|competicion|corpo|parete|insieme|esercizio completo|gara|lichaam|muur|samen|met muziek|wedstrijd|parede|com musica|competicao)\b/;

export function soundsLikeStage(plain: string): boolean {
  return STAGE_WORDS.test(plain);
}

/** Body and toss practised apart, as clubs write it: these sets say nothing yet of the joined trick. */
const APART_WORDS =
  /\b(only|alone|apart|isolated|wall|body|nur|allein|wand|korper|seul|seule|mur|corps|solo|sola|pared|cuerpo|parete|corpo|alleen|muur|lichaam|parede|so)\b/;

export function soundsApart(plain: string): boolean {
  return APART_WORDS.test(plain);
}
