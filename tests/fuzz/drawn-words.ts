/** What clubs write over their columns, as `layouts.ts` draws from; invented, in the languages that headings are read in. */
export type Language = "en" | "fr" | "es" | "de" | "it" | "nl" | "pt";

export interface Words {
  readonly date: readonly string[];
  readonly athlete: readonly string[];
  readonly trick: readonly string[];
  readonly stage: readonly string[];
  readonly marks: readonly string[];
  readonly caught: readonly string[];
  readonly attempts: readonly string[];
  readonly dropped: readonly string[];
  readonly bailed: readonly string[];
  readonly goal: readonly string[];
  readonly running: readonly string[];
  readonly minutes: readonly string[];
  readonly note: readonly string[];
  readonly total: readonly string[];
  readonly weekTotal: readonly string[];
  readonly tries: readonly string[];
  readonly notCaught: readonly string[];
}

export const WORDS: Readonly<Record<Language, Words>> = {
  en: {
    date: ["Date", "Day", "Practice date", "When"],
    athlete: ["Athlete", "Twirler", "Name", "Who", "Twirler's name"],
    trick: ["Trick", "Skill", "Toss", "Element", "What"],
    stage: ["Stage", "Phase", "How"],
    marks: ["Marks", "Result", "Attempts", "Score", "Record", "Sets"],
    caught: ["Caught", "Catches", "Made", "Hits", "No. caught"],
    attempts: ["Attempts", "Tries", "Throws", "Tried", "Out of", "Total"],
    dropped: ["Dropped", "Drops", "Missed", "Misses"],
    bailed: ["Bails", "Bailed"],
    goal: ["Goal", "Target", "Aim"],
    running: ["Running total", "Cumulative", "So far"],
    minutes: ["Minutes", "Min."],
    note: ["Note", "Remarks", "Comment"],
    total: ["Total", "Sum", "Season total"],
    weekTotal: ["Week total", "Total week", "Weekly total"],
    tries: ["Try", "Attempt", "Toss", "T"],
    notCaught: ["Not caught"],
  },
  fr: {
    date: ["Date", "Jour"],
    athlete: ["Athlète", "Élève", "Nom", "Twirleuse", "Prénom"],
    trick: ["Figure", "Lancer", "Élément", "Exercice"],
    stage: ["Étape", "Phase"],
    marks: ["Résultat", "Marques", "Essais"],
    caught: ["Rattrapés", "Réussis", "Réussites", "Attrapés"],
    attempts: ["Essais", "Tentatives", "Total"],
    dropped: ["Chutes", "Tombés", "Ratés", "Échecs"],
    bailed: ["Abandons", "Abandonnés"],
    goal: ["Objectif", "But"],
    running: ["Cumul"],
    minutes: ["Minutes", "Durée"],
    note: ["Remarques", "Commentaire"],
    total: ["Total", "Somme"],
    weekTotal: ["Total semaine", "Total de la semaine"],
    tries: ["Essai", "Lancer", "E"],
    notCaught: ["Non rattrapés"],
  },
  es: {
    date: ["Fecha", "Día"],
    athlete: ["Alumna", "Atleta", "Nombre", "Gimnasta"],
    trick: ["Truco", "Elemento", "Lanzamiento", "Figura"],
    stage: ["Etapa", "Fase"],
    marks: ["Resultado", "Marcas", "Intentos"],
    caught: ["Cogidas", "Atrapadas", "Aciertos", "Logrados"],
    attempts: ["Intentos", "Total", "Lanzamientos"],
    dropped: ["Caídas", "Fallos", "Perdidas"],
    bailed: ["Abandonados"],
    goal: ["Objetivo", "Meta"],
    running: ["Acumulado"],
    minutes: ["Minutos", "Duración"],
    note: ["Observaciones", "Notas"],
    total: ["Total", "Suma"],
    weekTotal: ["Total semana", "Total de la semana"],
    tries: ["Intento", "I"],
    notCaught: ["No cogidas"],
  },
  de: {
    date: ["Datum", "Tag", "Trainingstag"],
    athlete: ["Name", "Athletin", "Schülerin", "Wer"],
    trick: ["Übung", "Trick", "Wurf", "Element"],
    stage: ["Stufe", "Lernstufe", "Phase"],
    marks: ["Ergebnis", "Resultat", "Versuche"],
    caught: ["Gefangen", "Treffer", "Erfolge"],
    attempts: ["Versuche", "Würfe", "Gesamt", "Anzahl"],
    dropped: ["Gefallen", "Fehler", "Fehlversuche"],
    bailed: ["Abgebrochen", "Abbrüche"],
    goal: ["Ziel", "Soll"],
    running: ["Kumuliert", "Laufend"],
    minutes: ["Minuten", "Dauer"],
    note: ["Bemerkung", "Notiz"],
    total: ["Summe", "Gesamt"],
    weekTotal: ["Summe Woche", "Gesamt Woche"],
    tries: ["Versuch", "V"],
    notCaught: ["Nicht gefangen"],
  },
  it: {
    date: ["Data", "Giorno"],
    athlete: ["Atleta", "Allieva", "Nome", "Ginnasta"],
    trick: ["Esercizio", "Lancio", "Elemento"],
    stage: ["Fase", "Tappa"],
    marks: ["Risultato", "Segni", "Tentativi"],
    caught: ["Prese", "Riusciti", "Presi"],
    attempts: ["Tentativi", "Prove", "Totale"],
    dropped: ["Cadute", "Errori"],
    bailed: ["Abbandonati"],
    goal: ["Obiettivo"],
    running: ["Cumulato", "Progressivo"],
    minutes: ["Minuti", "Durata"],
    note: ["Note", "Osservazioni"],
    total: ["Totale", "Somma"],
    weekTotal: ["Totale settimana"],
    tries: ["Tentativo", "Prova"],
    notCaught: ["Non presi"],
  },
  nl: {
    date: ["Datum", "Dag"],
    athlete: ["Naam", "Atleet", "Sporter"],
    trick: ["Worp", "Oefening", "Element", "Truc"],
    stage: ["Fase", "Stap"],
    marks: ["Resultaat", "Pogingen"],
    caught: ["Gevangen", "Gelukt", "Raak"],
    attempts: ["Pogingen", "Worpen", "Totaal", "Aantal"],
    dropped: ["Gevallen", "Gemist", "Missers"],
    bailed: ["Afgebroken"],
    goal: ["Doel"],
    running: ["Lopend totaal", "Cumulatief"],
    minutes: ["Minuten", "Duur"],
    note: ["Opmerking"],
    total: ["Totaal", "Som"],
    weekTotal: ["Totaal week"],
    tries: ["Poging", "P"],
    notCaught: ["Niet gevangen"],
  },
  pt: {
    date: ["Data", "Dia"],
    athlete: ["Aluna", "Atleta", "Nome", "Ginasta"],
    trick: ["Truque", "Exercício", "Lançamento", "Elemento"],
    stage: ["Etapa", "Fase"],
    marks: ["Resultado", "Tentativas"],
    caught: ["Apanhadas", "Agarradas", "Acertos"],
    attempts: ["Tentativas", "Total", "Lançamentos"],
    dropped: ["Quedas", "Falhas"],
    bailed: ["Desistências"],
    goal: ["Objetivo", "Meta", "Alvo"],
    running: ["Acumulado"],
    minutes: ["Minutos", "Duração"],
    note: ["Observações"],
    total: ["Total", "Soma"],
    weekTotal: ["Total semana"],
    tries: ["Tentativa"],
    notCaught: ["Não apanhadas"],
  },
};

export const LANGUAGES = Object.keys(WORDS) as Language[];

export const ATHLETES: readonly (readonly string[])[] = [
  ["M.K.", "A.R.", "J.T.", "L.B."],
  ["Lea B.", "Mia K.", "Nora S.", "Ida W."],
  ["Léa B.", "Zoé M.", "Anaïs P.", "Inès D."],
  ["Lea Marie B.", "Ana Sofía C.", "Jo Ann T."],
  ["C.", "D.", "B.", "M."],
  ["LB", "MK", "NS"],
];

export const TRICKS: readonly (readonly string[])[] = [
  ["Double turn", "Illusion", "Blind catch", "Cartwheel"],
  ["2 spin", "3 spin", "Thumb flip", "Back catch"],
  ["Double tour", "Illusion", "Roue", "Dos"],
  ["Doppeldrehung", "Rad", "Illusion"],
  ["Media vuelta", "Giro doble", "Rueda"],
  ["Orion", "Comet", "Nova", "Vega"],
];

/** Neither a word of a heading in any language read, nor a name. */
export const UNKNOWN_HEADINGS: readonly string[] = ["Alfa", "Bravo", "Ceda", "Delta", "Echo", "Faro", "Golf", "Hano", "Inka", "Jura", "Kilo", "Lima"]; // prettier-ignore
