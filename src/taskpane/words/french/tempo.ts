/** Tempo, in French. */
export const tempo = {
  tempoTitle: "Tempo",
  countsTitle: "Comptes à la minute",
  countsHint: "Appuyez à chaque compte que dit l’athlète : doigt, souris, Espace ou Entrée.",
  tap: "Battre les comptes",
  tapHint: "Battez au moins quatre comptes.",
  tapOn: (taps: number) => `${String(taps)} ${taps <= 1 ? "battement" : "battements"} : continuez.`,
  tempoIs: (counts: string, intervals: number, outliers: number) =>
    `${counts} comptes par minute, d’après ${String(intervals)} ${intervals <= 1 ? "intervalle" : "intervalles"}${outliers === 0 ? "" : ` ; ${String(outliers)} ${outliers <= 1 ? "écarté" : "écartés"} (battement manqué ou double)`}.`,
  startAgain: "Recommencer",
  insertCounts: "Insérer les comptes",
  countsInserted: (value: string, address: string) => `${value} comptes par minute sont dans ${address}.`,
  heightsIn: "Hauteurs en",
  handTitle: "Temps de vol à la main",
  handHint:
    "Appuyez quand le bâton quitte la main, tenez, lâchez quand il est rattrapé. Plusieurs lancers sont plus précis.",
  hold: "Tenir du lâcher au rattrapage",
  inTheAir: "En l’air…",
  holdHint: "Rien de mesuré encore.",
  holdsTaken: (last: string, tosses: number) =>
    tosses <= 1
      ? `Un lancer (${last} s) ; la main se trompe d’environ 0,10 s.`
      : `Moyenne de ${String(tosses)} lancers, le dernier ${last} s.`,
  notAToss: "Trop court ou trop long pour un lancer : non compté.",
  holdAbandoned: "L’appui a été interrompu : non compté.",
  takeBack: "Ôter le dernier",
  filmTitle: "Temps de vol d’après un film",
  filmExplained: "Avancez image par image : la première où la main a lâché, et la première où elle tient de nouveau.",
  releaseFrameLabel: "Image du lâcher",
  catchFrameLabel: "Image du rattrapage",
  frameRateLabel: "Images par seconde du film",
  filmHint: "Tapez les deux images et le nombre d’images par seconde.",
  notInRange: (least: number, most: number) => `Tapez un nombre de ${String(least)} à ${String(most)}.`,
  catchAfterRelease: "Le rattrapage vient après le lâcher.",
  plusMinus: (value: string, uncertainty: string) => `${value} ± ${uncertainty}`,
  airtimeIs: (seconds: string, rise: string, unit: string) =>
    `${seconds} s en l’air : monte de ${rise} ${unit} au-dessus de la main.`,
  plusMinusMeaning:
    "± est une incertitude type : la vraie valeur est dedans environ deux fois sur trois. Mesurez le plafond et ses lampes avant un lancer plus haut.",
  insertAirtime: "Insérer le temps",
  insertRise: "Insérer la hauteur",
  airtimeInserted: (value: string, address: string) => `${value} s sont dans ${address}.`,
  riseInserted: (value: string, address: string) => `La hauteur ${value} est dans ${address}.`,
  nothingMeasured: "Rien n’est mesuré encore.",
};
