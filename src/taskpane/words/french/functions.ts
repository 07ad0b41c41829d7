/** Functions, and filling one in, in French. What a function says of itself stays as the spreadsheet shows it. */
export const functions = {
  functionsTitle: "Fonctions",
  functionsSearch: "Trouver une fonction (en anglais, comme dans la cellule)",
  functionsFound: (count: number) =>
    count === 0
      ? "Aucune fonction trouvée."
      : count <= 1
        ? `${String(count)} fonction.`
        : `${String(count)} fonctions.`,
  functionsNone: "Rien ne correspond à ces mots. Essayez-en un autre, comme catch, toss ou drop.",
  functionTyped: "Se tape ainsi",
  functionArguments: "Arguments",
  functionNoArguments: "Aucun.",
  argumentCells: "cellules",
  functionAnswer: "Réponse",
  functionExample: "Exemple",
  functionExampleShows: (shows: string) => `affiche ${shows}`,
  functionErrors: "Erreurs",
  functionSource: "Source",
  functionInsert: "Insérer l’exemple",
  functionInsertOf: (id: string) => `Insérer l’exemple de ${id}`,
  functionInsertHint: "Va dans la cellule sélectionnée. Une cellule non vide reste telle quelle.",
  functionInserted: (formula: string, address: string) => `${formula} est dans ${address}.`,
  functionNotInserted: (reason: string) => `Rien n’a été inséré. ${reason}`,

  fillIn: "Remplir et insérer",
  fillInOf: (id: string) => `Remplir et insérer ${id}`,
  fillInHint:
    "Tapez une valeur, ou sélectionnez des cellules sur la feuille et prenez-les. Entrée dans un champ vide les prend aussi.",
  fillInTake: "Prendre la sélection",
  fillInTakeFor: (field: string) => `Prendre la sélection pour ${field}`,
  fillInTaken: (field: string, cells: string) => `${field} : ${cells}.`,
  fillInTarget: "Va dans",
  fillInTargetHint: "Une cellule vide. Une longue réponse remplit les cellules au-dessous et à côté.",
  fillInInsert: "Insérer",
  fillInFormula: "Formule",
  argumentMissing: "Celui-ci est nécessaire : tapez une valeur, ou prenez des cellules.",
  argumentOneCell: (cells: string) => `Prend une seule valeur : sélectionnez une cellule au lieu de ${cells}.`,
  argumentHoldsTarget: (target: string) =>
    `Ces cellules contiennent ${target}, où va la formule. Choisissez-en d’autres.`,
  argumentQuotes: "Un guillemet est ouvert : fermez-le, ou ôtez-le.",
  targetNotOne: "Tapez l’adresse d’une cellule, comme B5, ou prenez-la sur la feuille.",
  targetOccupied: (address: string) => `${address} contient déjà quelque chose. Le remplacer ?`,
  targetReplace: "Remplacer",
  targetKeep: "Garder",
  targetKept: "Rien n’a changé. Choisissez une autre cellule.",
  selectionNotRead: (reason: string) => `La sélection n’a pas pu être prise. ${reason}`,
};
