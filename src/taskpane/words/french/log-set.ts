/** Log a set, in French. */
import { percentUnder } from "../../../core/advice";
import { EVEN_CHANCE, READY_CHANCE, RISK_BAILS, RISK_CHANCE, type Judgement } from "../../../core/readiness";

const outOf = (caught: number, of: number): string => `${String(caught)} sur ${String(of)}`;
const inPercent = (share: number): string => `${String(Math.round(100 * share))} %`;
const under = (chance: number, limit: number): string => `${String(percentUnder(chance, limit)).replace(".", ",")} %`;
const attempts = (count: number): string => `${String(count)} ${count <= 1 ? "essai" : "essais"}`;

export const logSet = {
  logSetTitle: "Noter une série",
  dockLabel: "La série",
  seasonLabel: "Saison",
  athleteLabel: "Athlète",
  trickLabel: "Figure",
  stageLabel: "Étape",
  minutesAndNote: "Jour, minutes, manière, remarque",
  dayLabel: "Jour, si ce n’est pas aujourd’hui",
  wayLabels: { entrance: "Entrée", exit: "Sortie", condition: "Condition" },
  columnsLacking: "Ce journal n’a pas encore de colonnes pour l’entrée, la sortie et la condition.",
  addColumns: "Ajouter les trois colonnes",
  columnsAdded: "Le journal a maintenant les colonnes Entrance, Exit et Condition ; rien d’autre n’a changé.",
  columnsNotAdded: (reason: string) => `Les colonnes n’ont pas été ajoutées. ${reason}`,
  columnLacking: "Ce journal n’a pas encore cette colonne : ajoutez les colonnes, ou laissez vide.",
  minutesLabel: "Minutes",
  noteLabel: "Remarque",
  optionsFound: (count: number) =>
    count === 0 ? "Rien ne convient dans la liste." : `${String(count)} dans la liste.`,
  markWords: { c: "Rattrapé", d: "Tombé", b: "Renoncé" },
  undo: "Annuler",
  putAside: "Mettre de côté",
  saveSet: "Enregistrer",
  saving: "Enregistrement…",
  lookInLog: "Voir le journal",
  setCount: (count: number, size: number | null) =>
    size === null
      ? String(count)
      : count < size
        ? `${String(count)} sur ${String(size)}`
        : `${String(count)} sur ${String(size)} : complète`,
  setInWords: (caught: number, dropped: number, bailed: number) =>
    `${String(caught)} ${caught <= 1 ? "rattrapé" : "rattrapés"}, ${String(dropped)} ${dropped <= 1 ? "tombé" : "tombés"}, ${String(bailed)} ${bailed <= 1 ? "renoncé" : "renoncés"}.`,
  counted: (mark: string, count: number, size: number | null, status: string | null) =>
    [
      `${mark}.`,
      size === null ? `${String(count)}.` : `${String(count)} sur ${String(size)}.`,
      ...(status === null ? [] : [`${status}.`]),
    ].join(" "),
  undone: (mark: string, count: number, size: number | null) =>
    `${mark} annulé. ${String(count)}${size === null ? "" : ` sur ${String(size)}`}.`,
  nothingToUndo: "Rien à annuler.",
  reasonInWords: ({ reason, lastSet }: Judgement): string => {
    const set = outOf(lastSet.caught, lastSet.attempts);
    const bails = (count: number): string => (count === 2 ? "deux renoncés" : `${String(count)} renoncés`);
    const alsoBails = lastSet.bails >= RISK_BAILS ? ` ; ${bails(lastSet.bails)}` : "";
    switch (reason.kind) {
      case "nothing logged":
        return "rien n’est encore noté";
      case "set not full":
        return `encore ${String(reason.missing)} pour une série entière`;
      case "below the standard":
        return `${set} ; le seuil est ${inPercent(reason.standard)}`;
      case "one set only":
        return `${set}, et une seule série jusqu’ici`;
      case "not shown yet":
        return `${set} ; probabilité ${under(reason.chance, READY_CHANCE)}, il faut ${inPercent(READY_CHANCE)}`;
      case "record fallen":
        return `était Ready ; probabilité ${under(reason.chance, EVEN_CHANCE)} maintenant`;
      case "slide":
        return `${outOf(reason.caught, reason.attempts)} ; d’habitude ${inPercent(reason.usual)}${alsoBails}`;
      case "low chance":
        return `probabilité ${under(reason.chance, RISK_CHANCE)}${alsoBails}`;
      case "bails":
        return bails(reason.bails);
      case "holds":
        return `${set}${reason.lastSetAtStandard ? "" : ", ne glisse pas"} ; probabilité ${inPercent(reason.chance)}`;
    }
  },
  statusWas: (status: string) => `avant : ${status}`,
  streakNow: (streak: number) =>
    streak > 0
      ? `${String(streak)} de suite`
      : streak < 0
        ? `${String(-streak)} ${streak === -1 ? "manqué" : "manqués"} de suite`
        : "aucune suite",
  streakUnknown: "suite inconnue : le journal contient des totaux",
  apartStreak: (streak: string) => `inchangé : cette étape se travaille à part · ${streak} dans cette série`,
  rowsNotCounted: (rows: number, of: number) =>
    `${String(rows)} ${rows <= 1 ? "ligne" : "lignes"} du journal sur ${String(of)} ne ${rows <= 1 ? "compte" : "comptent"} pas`,
  moreNotCounted: (rows: number) => `et ${String(rows)} de plus`,
  laterDays: (day: string) =>
    `Cette figure est déjà notée à une date plus tardive (${day}) : les dates comptent, cette série se place donc avant.`,
  statusUnavailable: "Le statut ne peut pas être calculé pour le moment. Continuez de compter : rien n’est perdu.",
  statusNeedsChoice: "Choisissez l’athlète et la figure pour voir le statut.",
  readingWorkbook: "Lecture du classeur…",
  bailCaution:
    "Deux renoncements : arrêtez là. Ne forcez pas les répétitions ; revenez d’une étape jusqu’à ce que ce soit rassurant. Vertige, douleur ou coup : plus rien aujourd’hui, et l’avis du médecin d’abord.",
  marksGoAlong: (count: number, athlete: string, trick: string) =>
    `${count <= 1 ? `L’essai compté (${String(count)}) vaut` : `Les ${attempts(count)} comptés valent`} maintenant pour ${athlete === "" ? "aucun athlète" : athlete}, ${trick === "" ? "aucune figure" : trick}.`,
  setRestored: (count: number) =>
    count <= 1
      ? `${attempts(count)} non enregistré est de retour.`
      : `${attempts(count)} non enregistrés sont de retour.`,
  notAnAthlete: (name: string) =>
    name === ""
      ? "Choisissez un athlète."
      : `« ${name} » n’est pas dans la liste des athlètes. Choisissez dans la liste, ou ajoutez ce nom sur la feuille Season.`,
  notATrick: (name: string) =>
    name === ""
      ? "Choisissez une figure."
      : `« ${name} » n’est pas dans la liste des figures. Choisissez dans la liste, ou ajoutez ce nom sur la feuille Tricks.`,
  chooseStage: "Choisissez une étape.",
  noMarksYet: "Aucun essai à enregistrer : appuyez sur Rattrapé, Tombé ou Renoncé.",
  notMinutes: (most: number) => `Tapez des minutes de 0 à ${String(most)}, ou laissez vide.`,
  seasonGone: (season: string) =>
    `La saison ${season} n’est pas dans ce classeur. Choisissez-en une autre, ou ouvrez son classeur.`,
  notReadYet: "Le classeur n’est pas encore lu. La série est gardée : enregistrez-la dans un instant.",
  waitForSaving: "Attendez : la série s’enregistre.",
  firstFindOut: "Vérifiez d’abord si cette série est dans le journal, ou mettez-la de côté.",
  savingSet: "Enregistrement de la série…",
  lookingInLog: "Lecture du journal…",
  setSaved: (athlete: string, trick: string, marks: string, address: string | null) =>
    `Enregistré : ${athlete}, ${trick}, ${marks}${address === null ? "" : `, dans ${address}`}.`,
  notSaved: (reason: string) => `Non enregistré ; la série est toujours là. ${reason}`,
  saveUnanswered: "Le classeur ne répond pas. La série est gardée. Voyez le journal avant toute autre chose.",
  saveUnclear: (reason: string) => `On n’a pas pu voir si la série est dans le journal ; elle est gardée. ${reason}`,
  notInLogYet:
    "Elle n’est pas encore dans le journal, et le classeur n’a pas répondu. Regardez de nouveau dans un instant.",
  notInLog: "Elle n’est pas dans le journal. Enregistrez-la de nouveau.",
  workbookChanged: "Un autre classeur a été ouvert à sa place.",
  hostSilent: "Le classeur ne répond pas.",
  workbookNotRead: (reason: string) =>
    `Le classeur n’a pas pu être lu : ${reason} Vous pouvez compter quand même, et enregistrer plus tard.`,
  noSeason: "Il n’y a pas encore de saison dans ce classeur.",
  noSeasonNext: "Créez-en une d’abord : athlètes, figures et journal viennent avec. La série se note ensuite ici.",
  goToNewSeason: "Créer une saison",
  noAthletes: "La feuille Season ne liste aucun athlète : ajoutez-en un d’abord.",
  noTricks: "La feuille Tricks ne liste aucune figure : ajoutez-en une d’abord.",
  usualSettings: (setSize: number) =>
    `Le seuil et la taille des séries de la feuille Season n’ont pas pu être lus : 80 % et des séries de ${String(setSize)} les remplacent.`,
  keepsNothing: "Cet ordinateur ne garde rien pour ce volet : enregistrez la série avant de le fermer.",
  ofAnotherDay: (day: string) => `Ces essais sont du ${day}, et seront notés à ce jour.`,
  asideTitle: "Séries non enregistrées",
  asideSet: (athlete: string, trick: string, marks: string) =>
    `${athlete === "" ? "Aucun athlète" : athlete}, ${trick === "" ? "aucune figure" : trick} : ${marks === "" ? "aucun essai" : marks}`,
  fromWorkbook: (name: string) => `Comptée dans ${name}.`,
  takeUp: "Reprendre",
  takeUpOf: (set: string) => `Reprendre : ${set}`,
  throwAway: "Jeter",
  throwAwayOf: (set: string) => `Jeter : ${set}`,
  throwAwaySure: "Jeter vraiment",
  throwAwaySureOf: (set: string) => `Jeter vraiment : ${set}`,
  setTakenUp: (athlete: string, trick: string, count: number) => `Reprise : ${athlete}, ${trick}, ${attempts(count)}.`,
  setThrownAway: "Jetée.",
  setGone: "Cette série n’est plus gardée : elle a été enregistrée ou jetée ailleurs.",
};
