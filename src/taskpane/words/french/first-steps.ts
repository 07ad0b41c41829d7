/** The first steps, and what each status means, in French. The status words are the sheet's. */
export const firstSteps = {
  firstSteps: "Premiers pas",
  firstStepNames: ["Créer une saison", "Noter une série", "Lire le statut"],
  firstStepDone: "fait",
  firstStepsBuild:
    "Trois champs suffisent : un nom comme 2027, les initiales de vos athlètes, une figure. Les autres ont des valeurs habituelles.",
  firstStepsBuildGo: "Remplir le formulaire",
  firstStepsLog: "Choisissez l’athlète et la figure, appuyez sur un bouton par essai, puis enregistrez.",
  firstStepsLogHere: (season: string) =>
    `La saison ${season} est déjà là. Essayez-la avec une série, ou créez la vôtre.`,
  firstStepsLogGo: "Compter une série",
  firstStepsOwn: "Créer la mienne",
  firstStepsSkip: "Passer",
  wordsOfTheBoard: "Ce que disent les mots",
  firstStepsStatus: (athlete: string, trick: string) => `${athlete}, ${trick} :`,
  firstStepsUnread: "La série est enregistrée. Son statut est sur la feuille Board.",
  firstStepsAfter: "Il bouge à chaque série. La feuille Board les a tous.",
  firstStepsPicture: "Le voir en image",
  firstStepsEnd: "Terminé",
  statusMeanings: {
    "No attempts": "Rien n’est encore noté.",
    "Too few": "Moins d’essais qu’une série : notez-en encore.",
    Building: "La dernière série est sous le seuil : pas encore pour le programme.",
    Confirm: "Pas encore, ou plus maintenant : à montrer encore par une série au seuil, de préférence un autre jour.",
    Ready: "Assez sûr pour le programme : deux séries ou plus, et l’historique le confirme.",
    Solid: "Vraiment sûr : l’historique le rend probable à 90 % au moins.",
    "At risk": "C’était prêt et cela glisse : à revoir avant de le garder dans le programme.",
  },
};
