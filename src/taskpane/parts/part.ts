/** A part of the pane: one tab and what stands under it. */
import type { Judgement } from "../../core/readiness";
import type { ChangeListener } from "../host/calm-changes";
import type { Drafts } from "../host/storage";
import type { WorkbookHost } from "../host/host";

/** What somebody new has reached. */
export type Milestone =
  | { readonly kind: "season built"; readonly label: string }
  | {
      readonly kind: "set saved";
      readonly athlete: string;
      readonly trick: string;
      /** Undefined where the log holds something that cannot be read. */
      readonly judged: Judgement | undefined;
    };

/** What every part is given. */
export interface PartContext {
  readonly host: WorkbookHost;
  readonly drafts: Drafts;
  /** Opens another part by its id. */
  readonly open: (partId: string) => void;
  /** Has the listener told each time that this part is opened, the first time included. */
  readonly whenShown: (listener: () => void) => void;
  /** Has the listener told that the workbook has changed, while this part is open; an opening tells of what was before. */
  readonly whenChanged: (listener: ChangeListener) => void;
  /** Tells the first steps, where they are open, and every part what has been reached. */
  readonly reached: (milestone: Milestone) => void;
  /** Has the listener told what has been reached, in whichever part. */
  readonly whenReached: (listener: (milestone: Milestone) => void) => void;
}

export interface Part {
  /** Short and lower case; it becomes part of element ids. */
  readonly id: string;
  readonly title: string;
  /** Fills the panel. Called once; the panel stays in the document, hidden while another part is shown. */
  mount(panel: HTMLElement, context: PartContext): void;
}
