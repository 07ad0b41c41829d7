/** Pictures, in French. */
export const pictures = {
  picturesTitle: "Images",
  picturesWhich: "Que regarder",
  pictureNames: {
    record: "Une figure, série par série",
    failing: "Une figure qui échoue",
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

  failingHeadings: ["Question posée", "Réponse"],
  failingQuestions: {
    status: "Où en est-elle ?",
    since: "Depuis quand ?",
    stage: "Où casse-t-elle ?",
    firstTry: "Est-ce le premier essai ?",
    entrance: "Une autre entrée ?",
    exit: "Une autre sortie ?",
    condition: "Est-ce une condition ?",
    standIn: "Que mettre à sa place ?",
    out: "Est-elle sortie ?",
    next: "Et maintenant ?",
  },
  failingTooFewDays: "Depuis quand : un changement se voit à partir du troisième jour d’entraînement.",
  failingNoChange: (days: number, chance: string) =>
    `Depuis quand : aucun changement vu en ${String(days)} ${days <= 1 ? "jour" : "jours"} d’entraînement (probabilité d’un changement : ${chance}).`,
  failingChange: (slid: boolean, day: string, before: string, since: string, chance: string) =>
    `Depuis le ${day} : ${before} rattrapés avant, ${since} depuis ; ${slid ? "une baisse et pas seulement un mauvais jour" : "une hausse et pas seulement un bon jour"}, avec une probabilité de ${chance}.`,
  failingAllStages: "Étapes : toutes sont faites.",
  failingStage: (stage: string, caught: number, attempts: number, run: number) =>
    attempts === 0
      ? `Étapes : ${stage} est la première où il reste à faire, pas encore commencée.`
      : `Étapes : ${stage} est la première où il reste à faire : ${String(caught)} sur ${String(attempts)}, meilleure suite ${String(run)}.`,
  failingNoFirstTry:
    "Premier essai du jour : pas encore connu, les jours commencent par des totaux ou rien n’est noté.",
  failingFirstTry: (verdict: string, caught: number, attempts: number, laterCaught: number, laterAttempts: number) =>
    `Premier essai du jour ${verdict === "not clear yet" ? "sans différence claire avec les suivants" : verdict === "worse" ? "moins bon que les suivants" : "meilleur que les suivants"} : ${String(caught)} sur ${String(attempts)}, ensuite ${String(laterCaught)} sur ${String(laterAttempts)}.`,
  failingOfWay: (what: string, answer: string) => `${what} : ${answer}`,
  failingNoWay: "aucune n’est encore notée dans le journal.",
  failingOneWay: (way: string) =>
    `seulement « ${way} » jusqu’ici : essayez-en une autre, en alternant dans le même entraînement.`,
  failingWaysUnclear: (ways: number) =>
    `${String(ways)} ${ways <= 1 ? "essayée" : "essayées"}, pas encore clair : continuez d’alterner dans le même entraînement.`,
  failingWay: (
    way: string,
    better: boolean,
    caught: number,
    attempts: number,
    usual: string,
    usualCaught: number,
    usualAttempts: number,
  ) =>
    `« ${way} » est ${better ? "meilleure" : "moins bonne"} : ${String(caught)} sur ${String(attempts)}, l’habituelle « ${usual} » ${String(usualCaught)} sur ${String(usualAttempts)}, comparées les mêmes jours.`,
  failingAllDifferent:
    "tant de mots différents que rien ne se compare : le même mot pour la même chose, et les remarques sous Note.",
  failingConditions: (answer: string) => `Conditions, sur toutes les figures de l’athlète : ${answer}`,
  failingCondition: (
    condition: string,
    verdict: "better" | "worse" | "not clear yet" | "never without it",
    caught: number,
    attempts: number,
    difference: string | undefined,
  ) => {
    const counted = `« ${condition} » ${String(caught)} sur ${String(attempts)}`;
    if (difference === undefined || verdict === "never without it") {
      return `${counted}, et aucune figure sans elle à comparer.`;
    }
    if (verdict === "not clear yet") return `${counted} ; sans elle, les mêmes figures ne diffèrent pas clairement.`;
    return `${counted} : ${difference} de rattrapés en ${verdict === "better" ? "plus" : "moins"} que sans elle, pour les mêmes figures.`;
  },
  failingNoCounts: "À sa place : cette figure n’a pas de temps sur la feuille Tricks.",
  failingNoStandIn: "À sa place : aucune figure de l’athlète n’est Ready avec aussi peu de temps.",
  failingStandIns: (tricks: string) => `Pourraient prendre sa place, Ready et sans plus de temps : ${tricks}.`,
  failingOut: (day: string) => `Sortie du programme depuis le ${day} : ses étapes comptent à partir de ce jour.`,
  failingNext: {
    stop: "Maintenant : arrêter, deux renoncements. Ne pas forcer ; corps et lancer à part jusqu’à ce que les deux soient sûrs.",
    "keep warm": "Maintenant : elle tient ; une série par entraînement suffit.",
    "log more": "Maintenant : elle s’apprend encore ; continuez à l’étape ci-dessus.",
    "five running": "Maintenant : cinq rattrapés de suite, et pas plus de deux renoncements.",
    neighbours: "Maintenant : avec la figure d’avant et celle d’après, cinq de suite.",
    "better way": "Maintenant : prenez la manière qui réussit mieux.",
    "safer trick":
      "Maintenant : une figure plus sûre en attendant, une ligne sous Out and back in sur la feuille Routine ; ou une autre entrée ou sortie.",
    retrain: "Maintenant : continuez à l’étape ci-dessus ; sans la pression du programme.",
    "back in": "Maintenant : elle peut revenir ; tapez le jour sous Back on, sur la feuille Routine.",
  },
  failingCaution:
    "Deux renoncements finissent une série, et aucun essai de manière ne continue malgré eux. Un blocage ne se force pas : une étape en arrière, ou laissez-la pour aujourd’hui. Vertige, douleur ou coup : arrêter.",

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
