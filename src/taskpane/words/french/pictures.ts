/** Pictures, in French. */
export const pictures = {
  picturesTitle: "Images",
  picturesWhich: "Que regarder",
  pictureNames: {
    record: "Une figure, série par série",
    landings: "Où tombent les lancers",
    routine: "Le programme dans le temps",
    toss: "Un lancer et le plafond",
  },
  picturesReading: "Lecture de la saison…",
  picturesNotRead: (reason: string) => `La saison n’a pas pu être lue. ${reason}`,
  picturesNoSeason:
    "Il n’y a pas encore de saison à regarder. Créez-en une d’abord : les images viennent avec les séries notées.",
  picturesTable: "La même chose en tableau",
  pictureOf: (what: string, of: string) => `${what} : ${of}`,

  recordNothing:
    "Aucune série d’une figure entière n’est notée. Notez-en une d’abord : l’image grandit à chaque série.",
  recordOfDays: (sets: number, first: string, last: string) =>
    `${String(sets)} ${sets <= 1 ? "série" : "séries"}, ${first === last ? first : `du ${first} au ${last}`}.`,
  recordLast: (caught: number, attempts: number, low: string, high: string) =>
    `Dernière série : ${String(caught)} sur ${String(attempts)} ; d’après elle seule, le vrai taux est entre ${low} et ${high}.`,
  recordStatus: (status: string, reason: string, standard: string) =>
    `Statut : ${status} (${reason}), pour un seuil de ${standard}.`,
  recordChanges: (changes: string) => `Le statut a changé : ${changes}.`,
  recordChange: (status: string, day: string, reason: string) => `${status}, ${day} (${reason})`,
  recordContests: (contests: string) => `Concours : ${contests}.`,
  recordContest: (contest: string, day: string) => `${contest} (${day})`,
  recordLatest: (shown: number, sets: number) =>
    `Sont dessinées les ${String(shown)} dernières séries sur ${String(sets)} ; le tableau les a toutes.`,
  recordKey: {
    rate: "rattrapé dans une série",
    part: "une série incomplète",
    interval: "où est le vrai taux, 95 fois sur 100",
    standard: "le seuil",
    status: "le statut change",
    contest: "un concours",
  },
  recordHeadings: ["Série", "Jour", "Rattrapés", "Taux", "Vrai taux entre", "Statut", "Pourquoi"],
  fromTo: (low: string, high: string) => `${low} à ${high}`,
  caughtOf: (caught: number, attempts: number) => `${String(caught)} sur ${String(attempts)}`,

  landingsNothing:
    "Aucun point de chute noté. Tracez une cible à la craie, lancez, et notez sur la feuille Toss lab à combien à droite et en avant chacun tombe.",
  landingsMarks: (tosses: number) => `${String(tosses)} ${tosses <= 1 ? "point de chute" : "points de chute"}.`,
  landingsWithin: (half: string, most: string, unit: string) =>
    `La moitié tombe à moins de ${half} ${unit} de la cible, neuf sur dix à moins de ${most} ${unit}.`,
  landingsMean: (sides: string) => `En moyenne ${sides}.`,
  landingsOnTarget: "sur la cible",
  landingsRight: (distance: string, unit: string) => `${distance} ${unit} à droite`,
  landingsLeft: (distance: string, unit: string) => `${distance} ${unit} à gauche`,
  landingsForward: (distance: string, unit: string) => `${distance} ${unit} en avant`,
  landingsBack: (distance: string, unit: string) => `${distance} ${unit} en arrière`,
  and: (one: string, other: string) => `${one} et ${other}`,
  landingsFew: (more: number) => `Notez-en ${String(more)} de plus avant d’y lire une dérive.`,
  landingsNoDrift: "Pas de dérive nette : cherchez des chutes plus proches, au même compte à chaque fois.",
  landingsDrift: "C’est une dérive nette : lâchez dans l’axe du corps, hanches et épaules de face.",
  landingsCaution: "Tenez-vous loin du mur : le bâton en revient. Personne sous le lancer d’un autre.",
  landingsKey: { mark: "une chute", target: "la cible", mean: "leur moyenne", half: "la moitié", most: "neuf sur dix" },
  landingsAcross: "gauche et droite",
  landingsUp: "arrière et avant",
  landingsHeadings: (unit: string) => ["Jour", `À droite, ${unit}`, `En avant, ${unit}`, `Distance, ${unit}`],

  routineNothing:
    "La feuille Routine ne liste encore aucune figure. Mettez-les-y dans l’ordre : la bande se dessine seule.",
  routineEntries: (entries: number, tosses: number, length: string) =>
    `${String(entries)} ${entries <= 1 ? "élément" : "éléments"}, dont ${String(tosses)} ${tosses <= 1 ? "lancer avec un historique" : "lancers avec un historique"}, durée ${length}.`,
  routineOver: (over: string, limit: string) => `Dépasse la limite de ${limit} de ${over} secondes.`,
  routineUnder: (under: string, limit: string) => `Sous la limite de ${limit} de ${under} secondes.`,
  routineClean: (clean: string, drops: string) =>
    `Chance de ne rien laisser tomber : ${clean} ; chutes à prévoir : ${drops}. Les lancers sont pris comme indépendants.`,
  routineRisk: (tosses: string) => `Les plus risqués : ${tosses}.`,
  routineRiskOf: (trick: string, start: string, risk: string) => `${trick} à ${start}, tombé ${risk} du temps`,
  routineNoCounts: (entries: number) =>
    entries <= 1
      ? `${String(entries)} élément n’a pas de comptes et ne prend ici aucun temps.`
      : `${String(entries)} éléments n’ont pas de comptes et ne prennent ici aucun temps.`,
  routineKey: {
    risk: "hauteur des hachures : part tombée",
    none: "pas un lancer, ou sans historique",
    limit: "la limite de temps",
  },
  routineHeadings: ["Ordre", "Figure", "Commence à", "Rattrapé", "Tombé"],

  tossNothing:
    "Aucune figure de la feuille Tricks n’a de comptes. Tapez-y les comptes du corps : temps de vol et hauteur suivent.",
  tossCounts: (counts: string, perMinute: string, seconds: string) =>
    `${counts} comptes à ${perMinute} par minute : ${seconds} s en l’air.`,
  tossRise: (rise: string, peak: string, unit: string) =>
    `Monte de ${rise} ${unit} au-dessus de la main, jusqu’à ${peak} ${unit} du sol.`,
  tossTravel: (travel: string, unit: string, lean: string) =>
    `Se déplace de ${travel} ${unit}, et quitte la main à ${lean}° de la verticale.`,
  tossCeiling: (ceiling: string, unit: string) => `Plafond à ${ceiling} ${unit}.`,
  tossFits: {
    "ceiling not known":
      "Le plafond n’est pas connu : mesurez-le, jusqu’à la lampe ou au filet le plus bas, avant ce lancer.",
    hits: "Il touche le plafond : moins de comptes, des comptes plus rapides ou une autre salle.",
    close: "Trop près du plafond ou de ses lampes : moins de comptes ou plus rapides. Essayez-le plus bas d’abord.",
    "travels far":
      "Il passe, mais se déplace beaucoup pour sa hauteur : gardez le couloir libre et vérifiez le point de chute.",
    fits: "Il passe sous ce plafond. Gardez le couloir libre.",
  },
  tossKey: {
    path: "le bâton, un point à chaque compte",
    ceiling: "le plafond",
    clearance: "l’espace à garder dessous",
    hand: "lâcher et rattrapage",
  },
  tossHeadings: (unit: string) => ["Compte", "Temps, s", `Hauteur, ${unit}`, `Déplacement, ${unit}`],
  tossFloor: "sol",
  tossImpossible: (reason: string) => `Ce lancer ne peut pas être dessiné. ${reason}`,
};
