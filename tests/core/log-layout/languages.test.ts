/** The same log in seven languages, its columns in several orders: only the headings and the cells tell. */
import { findLayout } from "../../../src/core/log-layout/find-layout";
import { day, sheet } from "./sheets";

interface Language {
  readonly name: string;
  /** As a coach of that language heads the columns. */
  readonly date: readonly string[];
  readonly athlete: readonly string[];
  readonly trick: readonly string[];
  readonly stage: readonly string[];
  readonly caught: readonly string[];
  readonly attempts: readonly string[];
  readonly marks: readonly string[];
  readonly note: readonly string[];
}

const languages: readonly Language[] = [
  {
    name: "English",
    date: ["Date", "PRACTICE DATE"],
    athlete: ["Athlete", "Student name"],
    trick: ["Trick", "Skill"],
    stage: ["Stage", "Phase"],
    caught: ["Caught", "# of catches"],
    attempts: ["Attempts", "No. of tries"],
    marks: ["Marks", "Results"],
    note: ["Notes", "Coach"],
  },
  {
    name: "French",
    date: ["Date", "Jour"],
    athlete: ["Athlète", "Nom de l’élève"],
    trick: ["Figure", "Lancer"],
    stage: ["Étape", "Phase"],
    caught: ["Réussis", "Nb rattrapés"],
    attempts: ["Essais", "Nombre de tentatives"],
    marks: ["Résultat", "Marques"],
    note: ["Remarques", "Entraîneuse"],
  },
  {
    name: "Spanish",
    date: ["Fecha", "Día"],
    athlete: ["Alumna", "Nombre"],
    trick: ["Truco", "Lanzamiento"],
    stage: ["Etapa", "Fase"],
    caught: ["Aciertos", "Cogidas"],
    attempts: ["Intentos", "Nº de intentos"],
    marks: ["Resultado", "Marcas"],
    note: ["Observaciones", "Entrenadora"],
  },
  {
    name: "German",
    date: ["Datum", "Tag"],
    athlete: ["Sportlerin", "Name"],
    trick: ["Übung", "Wurf"],
    stage: ["Stufe", "Phase"],
    caught: ["Gefangen", "Treffer"],
    attempts: ["Versuche", "Anzahl Würfe"],
    marks: ["Ergebnis", "Strichliste"],
    note: ["Bemerkung", "Trainerin"],
  },
  {
    name: "Italian",
    date: ["Data", "Giorno"],
    athlete: ["Atleta", "Nome"],
    trick: ["Esercizio", "Lancio"],
    stage: ["Fase", "Tappa"],
    caught: ["Prese", "Riusciti"],
    attempts: ["Prove", "Tentativi"],
    marks: ["Risultato", "Segni"],
    note: ["Osservazioni", "Allenatrice"],
  },
  {
    name: "Dutch",
    date: ["Datum", "Dag"],
    athlete: ["Leerling", "Naam"],
    trick: ["Oefening", "Truc"],
    stage: ["Fase", "Stap"],
    caught: ["Gevangen", "Gelukt"],
    attempts: ["Pogingen", "Aantal worpen"],
    marks: ["Resultaat", "Resultaten"],
    note: ["Opmerkingen", "Trainster"],
  },
  {
    name: "Portuguese",
    date: ["Data", "Dia"],
    athlete: ["Aluna", "Nome"],
    trick: ["Truque", "Exercício"],
    stage: ["Etapa", "Fase"],
    caught: ["Apanhadas", "Acertos"],
    attempts: ["Tentativas", "Nº de tentativas"],
    marks: ["Resultado", "Marcas"],
    note: ["Observações", "Treinadora"],
  },
];

/** Names and words that say nothing of themselves: the headings have to tell. */
const athletes = ["Kaja", "Noor", "Mila"];
const tricks = ["Morgana", "Kestrel"];
const stages = ["A", "B"];

type Part = "date" | "athlete" | "trick" | "stage" | "caught" | "attempts" | "marks" | "note";

function cellsOf(part: Part, row: number): string | number | ReturnType<typeof day> {
  switch (part) {
    case "date":
      return day(`2026-02-${String(1 + row).padStart(2, "0")}`);
    case "athlete":
      return athletes[row % athletes.length] ?? "";
    case "trick":
      return tricks[row % tricks.length] ?? "";
    case "stage":
      return stages[(row >> 1) % stages.length] ?? "";
    case "caught":
      return 3 + (row % 6);
    case "attempts":
      return 10;
    case "marks":
      return ["ccdcc", "cdcdc", "ccccc"][row % 3] ?? "";
    case "note":
    default:
      return ["R.S.", "H.P."][row % 2] ?? "";
  }
}

const orders: readonly (readonly Part[])[] = [
  ["date", "athlete", "trick", "stage", "caught", "attempts", "note"],
  ["note", "attempts", "caught", "trick", "stage", "date", "athlete"],
  ["athlete", "date", "stage", "trick", "note", "attempts", "caught"],
  ["date", "athlete", "trick", "stage", "marks", "note"],
  ["trick", "note", "marks", "athlete", "stage", "date"],
];

const cases = languages.flatMap((language) =>
  orders.flatMap((order) =>
    [0, 1].map(
      (wording) =>
        [`${language.name}: ${order.join(", ")} (${String(wording + 1)})`, language, order, wording] as const,
    ),
  ),
);

test.each(cases)("%s", (_, language, order, wording) => {
  const rows = Array.from({ length: 14 }, (__, row) => order.map((part) => cellsOf(part, row)));
  const { mapping } = findLayout(sheet("A1", [order.map((part) => language[part][wording] ?? ""), ...rows]));
  const columnOf = (part: Part): number => order.indexOf(part) + 1;
  expect(mapping).toMatchObject({
    date: columnOf("date"),
    athlete: { column: columnOf("athlete") },
    trick: { column: columnOf("trick") },
    stage: columnOf("stage"),
    record: order.includes("marks")
      ? { kind: "marks", first: columnOf("marks"), last: columnOf("marks") }
      : { kind: "tally", caught: columnOf("caught"), attempts: columnOf("attempts") },
  });
});
