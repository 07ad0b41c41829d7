/** New season and Hand-out, in French. */
import type { SettingsProblem } from "../../../workbook/season/season";

export const season = {
  newSeasonTitle: "Nouvelle saison",
  newSeasonIntro: "Ajoute les feuilles d’une saison à ce classeur. Les feuilles déjà présentes restent telles quelles.",
  labelLabel: "Nom de la saison",
  labelHint: "Par exemple 2027. Le nom de chaque nouvelle feuille se termine ainsi.",
  contestDateLabel: "Date du concours",
  contestDateHint: "Le concours que la saison prépare, par exemple 5 juin 2027.",
  athletesLabel: "Athlètes, un par ligne",
  athletesHint: "Les initiales suffisent. Ni date de naissance, ni rien de médical.",
  tricksLabel: "Figures, une par ligne",
  tricksHint: "Les comptes du corps après une virgule, si vous les connaissez : Double tour, 4",
  standardsGroup: "Quand une figure est jugée fiable",
  standardLabel: "Seuil de rattrapage, %",
  standardHint: "Part rattrapée dans une série. 80 est la règle habituelle.",
  setSizeLabel: "Essais par série",
  setSizeHint: "Combien d’essais font une série. D’habitude 10.",
  tossGroup: "Lancer et programme",
  countsPerMinuteLabel: "Comptes par minute",
  countsPerMinuteHint: "Comme les athlètes les disent : souvent plus vite que la musique.",
  unitLabel: "Longueurs en",
  unitHint: "Pour le plafond et les lancers de la saison.",
  unitMetres: "mètres",
  unitFeet: "pieds",
  ceilingLabel: "Hauteur du plafond",
  ceilingHint: "De votre salle, du sol à la lampe la plus basse.",
  dropCostLabel: "Points perdus par chute",
  dropCostHint: "Selon votre règlement cette année.",
  togetherGroup: "Duos et équipes",
  exchangesLabel: "Avec des feuilles pour les échanges et pour l’équipe",
  exchangesHint: "Qui lance à qui, et la chance que toute l’équipe rattrape.",
  buildSeason: "Créer la saison",
  clearForm: "Vider le formulaire",
  formCleared: "Le formulaire a repris ses valeurs habituelles.",
  draftNote:
    "Ce que vous tapez est gardé sur cet ordinateur jusqu’à la création de la saison, et n’est envoyé nulle part.",
  checkingNames: "Lecture des noms du classeur…",
  buildingSeason: "Création de la saison…",
  buildingSheet: (sheet: string, done: number, of: number) =>
    `Création de la saison… ${sheet}, feuille ${String(done)} sur ${String(of)}.`,
  seasonBuilt: (label: string) => `La saison ${label} est créée. Ces feuilles sont nouvelles :`,
  seasonBuiltNext: "Notez la première série sur la feuille Practice.",
  seasonFailed: "La saison n’a pas été créée.",
  nothingLeftBehind: "Rien n’est resté dans le classeur. Votre formulaire est toujours là.",
  leftBehind: "Celles-ci n’ont pas pu être retirées. Supprimez-les à la main avant de réessayer :",
  leftBehindUnknown:
    "Le classeur n’a pas pu être vérifié ensuite : cherchez de nouvelles feuilles et supprimez-les avant de réessayer.",
  standardProblem: (leastPercent: number, mostPercent: number) =>
    `Tapez un pourcentage de ${String(leastPercent)} à ${String(mostPercent)}, par exemple 80. Aucun nombre de rattrapages ne prouve 100 %.`,
  settingsProblem: ({ kind, values }: SettingsProblem): string => {
    const [first = "", second = "", third = ""] = values.map(String);
    switch (kind) {
      case "no label":
        return "Donnez un nom à la saison, par exemple 2027.";
      case "long label":
        return `Le nom a ${first} caractères ; il y a place pour ${second} au plus.`;
      case "strange label":
        return `Le nom contient « ${first} ». Lettres, chiffres, espaces et traits d’union seulement.`;
      case "empty label":
        return "Le nom a besoin d’au moins une lettre ou un chiffre.";
      case "label in use":
        return `Ce classeur a déjà « ${first} ». Choisissez un autre nom ; rien n’est écrasé.`;
      case "contest date":
        return "La date du concours est un jour de 2000 à 2099, ou vide.";
      case "no names":
        return first === "athlete"
          ? "Listez au moins un athlète, un par ligne."
          : "Listez au moins une figure, une par ligne.";
      case "many names":
        return `Il y en a ${second} ; il y a place pour ${third} au plus.`;
      case "empty line":
        return `La ligne ${second} est vide : donnez un nom ou ôtez la ligne.`;
      case "control sign":
        return `La ligne ${first} contient un saut de ligne ou une tabulation dans le nom.`;
      case "long name":
        return `La ligne ${first} a plus de ${second} caractères.`;
      case "name twice":
        return `« ${first} » est à la ligne ${second} et de nouveau à la ligne ${third}.`;
      case "body counts":
        return `Ligne ${first} : les comptes du corps sont un nombre de ${second} à ${third}, ou rien.`;
      case "standard":
        return "Le seuil de rattrapage se situe entre 10 % et 99 %.";
      case "set size":
        return `Une série est un nombre entier d’essais de ${first} à ${second}.`;
      case "counts per minute":
        return `Les comptes par minute sont un nombre de ${first} à ${second}.`;
      case "ceiling":
        return `La hauteur du plafond est un nombre de ${first} à ${second} ${third}, ou vide.`;
      case "unit":
        return "L’unité est m ou ft.";
      case "drop cost":
        return `Les points perdus par chute sont un nombre de ${first} à ${second}.`;
    }
  },

  handOutTitle: "Fiche",
  handOutIntro:
    "La page d’un athlète, pour le mur ou la famille, sur une feuille à elle : figures, statuts, dernières séries, étapes suivantes, et une figure jour par jour. Rien de personne d’autre, aucune comparaison.",
  handOutAthlete: "La page de qui",
  handOutAthleteHint: "La feuille suit le journal : elle peut être réimprimée plus tard.",
  handOutOf: (athlete: string, label: string) => `${athlete}, saison ${label}`,
  handOutMake: "Faire la page",
  handOutMakeAll: "Faire les pages de tous",
  handOutMaking: "La page se fait…",
  handOutMade: (sheet: string) =>
    `${sheet} est faite et affichée. Imprimez cette feuille, ou enregistrez-la en PDF à l’impression.`,
  handOutMadeAll: (made: number, there: number) =>
    `${made === 0 ? "Aucune page à faire" : made === 1 ? "1 page est faite" : `${String(made)} pages sont faites`}${there === 0 ? "" : `, ${String(there)} ${there === 1 ? "existait" : "existaient"} déjà`}. Chacune est une feuille à elle.`,
  handOutPrintAll: (pages: number) => (pages < 2 ? "Imprimer cette page" : `Imprimer ces ${String(pages)} pages`),
  handOutPrintAllHint:
    "Pour tout imprimer : cliquez l’onglet de la première page, tenez Maj, cliquez celui de la dernière, et imprimez.",
  handOutFailed: (reason: string) => `La page n’a pas été faite. ${reason}`,
  handOutNotPrinted: (reason: string) => `Les pages n’ont pas été imprimées. ${reason}`,
  handOutNothing: "Ce classeur n’a pas encore de saison avec des athlètes. Créez-en une d’abord, sous Nouvelle saison.",
  handOutNotRead: (reason: string) => `Le classeur n’a pas pu être lu. ${reason}`,
  handOutCare:
    "Donnez la page imprimée, pas le classeur : il contient ce qui concerne tous. Demandez d’abord à la famille si l’athlète est mineur.",

  gymTitle: "Feuille de salle",
  gymIntro:
    "Un journal vide d’un entraînement, à imprimer : les figures prévues de chacun avec des cases pour chaque série. Ensuite tapez les marques sur les cases, une cellule par série, et reprenez-les dans le journal.",
  gymMinutes: "Minutes par athlète",
  gymMinutesHint:
    "Elles deviennent des séries au rythme de chaque athlète : d’abord ce qui est sous le seuil et dans le programme.",
  gymMake: "Faire la feuille de salle",
  gymSheet: "Remplie",
  gymTake: "Reprendre dans le journal",
  gymMade: (sheet: string) =>
    `${sheet} est faite et affichée. Imprimez cette feuille ; son jour peut être tapé par-dessus.`,
  gymNotMade: (reason: string) => `La feuille de salle n’a pas été faite. ${reason}`,
  gymFaults: (cells: number) =>
    `Rien n’a été noté : ${String(cells)} ${cells <= 1 ? "cellule illisible" : "cellules illisibles"}. Retapez, puis appuyez encore une fois.`,
  gymMoreFaults: (more: number) => `et ${String(more)} de plus`,
  gymNothing: (sheet: string) => `Pas encore de marques sur ${sheet} : tapez-les sur les cases.`,
  gymTaken: (logged: number, before: number) =>
    [
      `${String(logged)} ${logged <= 1 ? "série est" : "séries sont"} dans le journal.`,
      ...(before === 0 ? [] : [`${String(before)} y ${before <= 1 ? "était" : "étaient"} déjà.`]),
    ].join(" "),
  gymStopped: (logged: number, of: number, reason: string) =>
    `${String(logged)} séries sur ${String(of)} sont dans le journal, puis arrêt : ${reason} Appuyez encore pour les autres.`,
  gymNotTaken: (reason: string) => `Tout n’a pas été repris dans le journal. ${reason}`,
};
