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
    `${String(count)} ${count <= 1 ? "jour est peut-être inversé" : "jours sont peut-être inversés"} : ceux qui sont des dates tombent tous du 1 au 12, et les autres sont des textes. Le tableur semble avoir lu le mois d’abord. Retapez ces jours, comme 2026-10-06 ; d’ici là ils comptent tels quels.`,
  ownSheetDoubtfulDay: (shown: string) => `Affiche ${shown}. Jour et mois sont peut-être inversés.`,
  ownSheetUnknownMarks: (words: string) =>
    `Laissé de côté, ce ne sont pas des marques : ${words}. La liste est sur la nouvelle feuille.`,
  ownSheetCellGoTo: (address: string) => `Aller à ${address}`,
  ownSheetCellProblem: (found: string, accepted: string) => `Trouvé : ${found}. Serait lu : ${accepted}.`,
  ownSheetPut: "Poser le tableau de bord",
  ownSheetPutting: "Le tableau de bord se pose…",
  ownSheetMissing: (roles: string) => `Encore à choisir : ${roles}.`,
  ownSheetKeyMissing: "Dites d’abord ce que veulent dire vos marques.",
  ownSheetDone: (sheet: string) => `Le tableau de bord est sur la nouvelle feuille ${sheet}.`,
  ownSheetDoneNext:
    "Les lignes ajoutées à votre journal comptent aussitôt. Le seuil et la taille des séries sont sur la feuille.",
  ownSheetFailed: "Le tableau de bord n’a pas été posé.",
};
