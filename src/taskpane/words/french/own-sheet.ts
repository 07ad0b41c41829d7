/** Use my sheet, in French. */
const cells = (count: number): string => `${String(count)} ${count <= 1 ? "cellule" : "cellules"}`;
const rows = (count: number): string => `${String(count)} ${count <= 1 ? "ligne" : "lignes"}`;

export const ownSheet = {
  ownSheetTitle: "Ma feuille",
  ownSheetIntro:
    "Pour un journal tenu à votre façon. Pose un tableau de bord dessus, sur une nouvelle feuille ; aucune de vos cellules ne change.",
  ownSheetRead: "Lire le journal sélectionné",
  ownSheetReadHint: "Sélectionnez d’abord une cellule de votre journal, ou ses titres et ses lignes.",
  ownSheetReading: "Lecture du journal sélectionné…",
  ownSheetReadingRows: (done: number, of: number) => `Lecture du journal… ligne ${String(done)} sur ${String(of)}.`,
  ownSheetNotRead: "Le journal n’a pas été lu.",
  ownSheetStale:
    "La feuille a changé depuis la lecture du journal. Relisez-le pour voir ce qu’elle contient maintenant.",
  nothingToRead: "Rien n’a été trouvé là. Sélectionnez une cellule de votre journal, puis réessayez.",
  markInSheetName: (sheet: string) =>
    `Les formules ne peuvent pas lire ici la feuille ${sheet}, car son nom contient un point d’exclamation : renommez-la, puis réessayez.`,
  sheetGone: (sheet: string) => `La feuille ${sheet} n’est plus là.`,
  ownSheetWhere: (sheet: string, first: number, last: number) =>
    `Sur ${sheet}, lignes ${String(first)} à ${String(last)}.`,
  ownSheetTable: (sheet: string, table: string) => `Sur ${sheet}, le tableau ${table}.`,
  ownSheetHeadingRow: "Titres",
  ownSheetNoHeadings: "Il n’y en a pas",
  ownSheetRowNumber: (row: number, words: string) => `Ligne ${String(row)} : ${words}`,
  ownSheetColumns: "Quelle colonne est quoi",
  ownSheetDate: "Jour",
  ownSheetAttempts: "Les essais sont écrits comme",
  ownSheetMarks: "marques, comme ccdcc ou 8/10",
  ownSheetManyMarks: "un essai ou une série par colonne",
  ownSheetCaughtAttempts: "nombres : rattrapés et essayés",
  ownSheetCaughtDropped: "nombres : rattrapés et tombés",
  ownSheetAttemptsDropped: "nombres : essayés et tombés",
  ownSheetMarksColumn: "Marques",
  ownSheetFirstMarks: "Première de ces colonnes",
  ownSheetLastMarks: "Dernière de ces colonnes",
  ownSheetCaught: "Rattrapés",
  ownSheetTried: "Essayés",
  ownSheetDropped: "Tombés",
  ownSheetNoColumn: "Aucune colonne",
  ownSheetChoose: "Choisir une colonne",
  ownSheetOneForAll: "Le même à chaque ligne…",
  ownSheetAthleteForAll: "Athlète de toutes les lignes",
  ownSheetTrickForAll: "Figure de toutes les lignes",
  ownSheetByHeading: "Trouvée par son titre.",
  ownSheetByValues: "Trouvée par son contenu.",
  ownSheetByBoth: "Trouvée par son titre et son contenu.",
  ownSheetUnsure: "À vérifier.",
  ownSheetCorrected: "Choisie par vous.",
  ownSheetNotFound: "Non trouvée.",
  ownSheetReadAs: "Comment c’est lu",
  ownSheetTextDays: "Jours écrits en texte",
  ownSheetTextDaysHint: (count: number, bothWays: number) =>
    bothWays > 0
      ? `${cells(count)} dans la colonne des jours, dont ${String(bothWays)} se ${bothWays <= 1 ? "lit" : "lisent"} comme deux jours différents : dites lequel est voulu.`
      : `${cells(count)} dans la colonne des jours.`,
  ownSheetTextDaysLeave: "les laisser de côté",
  ownSheetDayFirst: (separator: string) => `jour d’abord : 31${separator}12${separator}2026`,
  ownSheetMonthFirst: (separator: string) => `mois d’abord : 12${separator}31${separator}2026`,
  ownSheetYearFirst: (separator: string) => `année d’abord : 2026${separator}12${separator}31`,
  ownSheetMonthInWords: "avec le mois en lettres",
  ownSheetFilledDown: "Une cellule vide vaut ce qui est au-dessus",
  ownSheetKey: "Ce que veulent dire vos marques",
  ownSheetKeyHint: (signs: string) => `Votre journal contient ${signs}.`,
  ownSheetSignCount: (sign: string, count: number) => `${sign} (${String(count)} fois)`,
  ownSheetKeyTwo: (caught: string, dropped: string) => `${caught} rattrapé, ${dropped} tombé`,
  ownSheetKeyThree: (caught: string, dropped: string, bailed: string) =>
    `${caught} rattrapé, ${dropped} tombé, ${bailed} renoncé`,
  ownSheetKeyUsual: "rien de cela : c, d et b comme d’habitude",
  ownSheetStagesApart: "Travaillées à part, non comptées",
  ownSheetStageCount: (stage: string, count: number) => `${stage} (${rows(count)})`,
  ownSheetUnreadable: "Cellules illisibles",
  ownSheetRows: (entries: number, readable: number) =>
    entries === readable
      ? `Lisibles : ${rows(entries)}, toutes.`
      : `Lisibles : ${String(readable)} sur ${rows(entries)}. Les autres sont laissées de côté jusqu’à leur correction :`,
  ownSheetNoRows: "Aucune ligne de journal n’a été trouvée avec ces colonnes.",
  ownSheetFirstOnly: (listed: number, count: number) => `Les ${String(listed)} premières sur ${cells(count)} :`,
  ownSheetTurned: (count: number) =>
    `${count <= 1 ? `${cells(count)} de marques contient une date` : `${cells(count)} de marques contiennent une date`} : le tableur a pris un total comme 8/10 pour une date. Mettez la colonne au format texte et retapez.`,
  ownSheetTurnedDays: (count: number) =>
    `${String(count)} ${count <= 1 ? "jour est peut-être inversé" : "jours sont peut-être inversés"} : ceux qui sont des dates tombent tous du 1 au 12. Le tableur semble avoir lu le mois d’abord là où le jour était dit, ou l’inverse. Retapez ces jours, comme 2026-10-06 ; d’ici là ils comptent tels quels.`,
  ownSheetDoubtfulDay: (shown: string) => `Affiche ${shown}. Jour et mois sont peut-être inversés.`,
  ownSheetUnknownMarks: (words: string) =>
    `Laissé de côté, ce ne sont pas des marques : ${words}. La liste est sur la nouvelle feuille.`,
  ownSheetCellGoTo: (address: string) => `Aller à ${address}`,
  ownSheetCellProblem: (found: string, accepted: string) => `Trouvé : ${found}. Serait lu : ${accepted}.`,
  ownSheetPut: "Poser le tableau de bord",
  ownSheetPutting: "Le tableau de bord se pose…",
  ownSheetMissing: (roles: string) => `Encore à choisir : ${roles}.`,
  ownSheetKeyMissing: "Dites d’abord ce que veulent dire vos marques.",
  ownSheetQuestionOpen: "Répondez d’abord à la question ouverte : votre journal peut se lire de plusieurs façons.",
  ownSheetColumnsOpen: (roles: string) => `Regardez d’abord ces colonnes et dites qu’elles sont justes : ${roles}.`,
  ownSheetNothingRead: (entries: number) =>
    `Avec ces choix, rien n’est lisible dans ${rows(entries)} : le tableau de bord serait vide. Ce qui ne va pas est indiqué plus haut.`,
  ownSheetNotThere: (sheet: string) => `La nouvelle feuille ${sheet} est introuvable dans le classeur.`,
  ownSheetOtherWorkbook:
    "Un autre classeur est ouvert maintenant. Lisez son journal avant d’y poser un tableau de bord.",
  ownSheetNotAllFound: (roles: string) =>
    `Rien n’est lisible pour l’instant : il manque l’endroit de ceci : ${roles}. Choisissez-le plus haut.`,
  ownSheetUnused: (columns: string) => `Non utilisées : ${columns}. Ce qui s’y trouve n’est pas compté.`,
  ownSheetEndsAt: (row: number) =>
    `Une autre liste commence à la ligne ${String(row)} : rien n’est lu à partir de là. Insérez les nouvelles lignes du journal au-dessus.`,
  ownSheetSummary: (
    caught: number,
    attempts: number,
    count: number,
    athletes: number,
    tricks: number,
    first: string,
    last: string,
  ) =>
    `Le tableau de bord comptera ${String(caught)} rattrapés sur ${String(attempts)} essais dans ${rows(count)} ; athlètes : ${String(athletes)}, figures : ${String(tricks)}, jours du ${first} au ${last}.`,
  ownSheetBailed: "Renoncés",
  ownSheetNamesOver: (names: string) => `seul sur une ligne au-dessus de son bloc : ${names}`,
  ownSheetUnsureColumns: (roles: string) =>
    `Ces colonnes pourraient aussi être d’autres : ${roles}. Comparez avec votre journal et corrigez au besoin.`,
  ownSheetConfirm: "Les colonnes sont justes",
  ownSheetBlank: "Ce que veut dire une cellule vide",
  ownSheetLoneHint: (sign: string, marked: number, empty: number) =>
    `Votre journal contient ${sign} dans ${cells(marked)}, et ${cells(empty)} à côté ${empty <= 1 ? "est vide" : "sont vides"}.`,
  ownSheetBlankHint: (marked: number, empty: number) =>
    `Marques : ${String(marked)} ; cellules vides à côté : ${String(empty)}.`,
  ownSheetEmptyCaught: (width: number) =>
    width <= 1
      ? "une cellule vide est rattrapée"
      : `une cellule vide est rattrapée : chaque ligne a ${String(width)} essais`,
  ownSheetEmptyDropped: (width: number) =>
    width <= 1 ? "une cellule vide est tombée" : `une cellule vide est tombée : chaque ligne a ${String(width)} essais`,
  ownSheetEmptyNone: "une cellule vide n’est pas un essai",
  ownSheetSignCaught: (sign: string) => `${sign} rattrapé`,
  ownSheetSignDropped: (sign: string) => `${sign} tombé`,
  ownSheetTally: "Ce que veulent dire vos totaux",
  ownSheetTallyHint: (examples: string) => `Votre journal contient ${examples}.`,
  ownSheetPartCaught: "rattrapés",
  ownSheetPartTried: "essayés",
  ownSheetPartDropped: "tombés",
  ownSheetTallyRead: (tally: string, caught: number, attempts: number) =>
    `${tally} veut dire ${String(caught)} rattrapés sur ${String(attempts)}`,
  ownSheetTurnedTallies: "Totaux devenus des dates",
  ownSheetTurnedRead: (shown: string, tally: string) => `${shown} veut dire ${tally}`,
  ownSheetSums: "Lignes qui additionnent les autres, non comptées",
  ownSheetDone: (sheet: string) => `Le tableau de bord est sur la nouvelle feuille ${sheet}.`,
  ownSheetDoneNext:
    "Les lignes ajoutées à votre journal comptent aussitôt. Le seuil et la taille des séries sont sur la feuille.",
  ownSheetFailed: "Le tableau de bord n’a pas été posé.",
};
