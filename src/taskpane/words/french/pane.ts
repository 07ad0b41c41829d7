/** The pane's frame and what several parts say, in French. */
export const pane = {
  locale: "fr-FR",
  product: "Twirl Ledger",
  partsLabel: "Parties de Twirl Ledger",
  outside:
    "Cette page est le volet Twirl Ledger : il fonctionne dans le tableur, où le bouton Twirl Ledger de l’onglet Accueil l’ouvre.",
  optional: "facultatif",
  languageLabel: "Langue",
  languageMissing: "Les mots de cette langue n’ont pas pu être chargés. Réessayez.",
  notADay: (typed: string) => `« ${typed} » n’est pas un jour.`,
  dayExample: (numbers: string, short: string, full: string) =>
    `Aujourd’hui, par exemple, peut s’écrire ${numbers}, ${short} ou ${full}.`,
  otherWeekday: (day: string, weekday: string) =>
    `Le ${day} est un ${weekday}. Corrigez le jour ou le jour de la semaine, ou laissez le jour de la semaine de côté.`,
  pastedNoDays: (count: number, cells: string) =>
    `${count <= 1 ? `${String(count)} cellule collée n’est pas un jour et reste du texte` : `${String(count)} cellules collées ne sont pas des jours et restent du texte`} : ${cells}.`,
  tryAgain: "Réessayer",
  partComing: "Un instant…",
  partMissing: "Cette partie n’a pas pu être chargée. Ouvrez-en une autre, puis revenez à celle-ci.",
  problemsFound: (count: number) =>
    count <= 1 ? "Un champ est à corriger." : `${String(count)} champs sont à corriger.`,
  unknownCause: "Le tableur n’a pas donné de raison.",
  hostBusy: "Le tableur est occupé : terminez la cellule en cours de saisie, puis réessayez.",
  hostProtected: "Le classeur ou la feuille est protégé : ôtez la protection, puis réessayez.",
  hostMissing: "Une feuille ou un tableau nécessaire n’est plus dans le classeur.",
  hostRefused: (reason: string) => `Le tableur a refusé : ${reason}`,
  selectionNotOne: "Sélectionnez des cellules qui forment un seul bloc.",
  cellNotEmpty: (address: string) =>
    `${address} contient déjà quelque chose. Sélectionnez une cellule vide, puis réessayez.`,
  tableLacksColumn: (table: string, heading: string) => `Le tableau ${table} n’a pas de colonne ${heading}.`,
  newWorkbook: "Nouveau classeur",

  repairTitle: "Si des cellules affichent #NAME?",
  repairIntro:
    "Réécrit les formules qui appellent nos fonctions, pour que le classeur les reconnaisse. Rien d’autre n’est touché.",
  repairButton: "Réparer les formules",
  repairWorking: "Examen de toutes les feuilles…",
  repairNone: "Toutes nos formules sont reconnues : rien à réparer.",
  repairDone: (count: number) =>
    count <= 1
      ? `${String(count)} formule a été réécrite et fonctionne.`
      : `${String(count)} formules ont été réécrites et fonctionnent.`,
  repairUnknown: (count: number) =>
    `${String(count)} ${count <= 1 ? "affiche" : "affichent"} toujours #NAME? : les fonctions ne sont pas chargées. Fermez le classeur, rouvrez-le et réessayez.`,
  repairRefused: (count: number) =>
    count <= 1
      ? `${String(count)} n’a pas pu être écrite : elle fait partie d’une matrice de plusieurs cellules.`
      : `${String(count)} n’ont pas pu être écrites : elles font partie d’une matrice de plusieurs cellules.`,
  repairProtected: (sheet: string, count: number) =>
    `${sheet} est protégée et en contient ${String(count)} : ôtez la protection, puis réessayez.`,
  repairFailed: (reason: string) => `Les formules n’ont pas été réparées. ${reason}`,
};
