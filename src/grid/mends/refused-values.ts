/**
 * A value that its cell does not take, such as a stage that is not in the list, stays in the cell's editor for whoever typed
 * it, with the reason beside it; what is typed next goes on there, and Escape leaves the cell as it was. The grid itself
 * throws the value away and opens a dialog, into which all that is typed next goes without a trace.
 */
import {
  DataValidationErrorStyle,
  DataValidationStatus,
  DOCS_NORMAL_EDITOR_UNIT_ID_KEY,
  type DocumentDataModel,
  type Injector,
  IUniverInstanceService,
  UniverInstanceType,
} from "@univerjs/core";
import { DataValidatorRegistryService } from "@univerjs/data-validation";
import { SheetInterceptorService } from "@univerjs/sheets";
import { SheetDataValidationModel, SheetsDataValidationValidatorService } from "@univerjs/sheets-data-validation";
import { IEditorBridgeService } from "@univerjs/sheets-ui";

import type { GridCell } from "../engine/messages";

/** Turns of the queue of small tasks that a rule may take to judge a value: far more than any takes that can judge at once. */
const TURNS = 200;

const NEXT = "What you typed is still in the cell: change it, or press Esc to leave the cell as it was.";

interface Refused {
  readonly cell: GridCell;
  readonly typed: string;
  readonly reason: string;
  /** It was not a key that ended the typing, and another cell may have been chosen since. */
  readonly byMouse: boolean;
}

interface RefusedValuesOptions {
  /** Shows and selects a cell. */
  readonly goTo: (cell: GridCell) => void;
  /** Where the reason is told; hidden while there is none. */
  readonly notice: HTMLElement;
  /** Why what stands in a cell now is refused though no rule of the sheet says so; undefined where it is not. */
  readonly refusal: (cell: GridCell) => string | undefined;
}

export function keepRefused(injector: Injector, { goTo, notice, refusal }: RefusedValuesOptions): void {
  const bridge = injector.get(IEditorBridgeService);
  const rules = injector.get(SheetDataValidationModel);
  const validator = injector.get(SheetsDataValidationValidatorService);
  let typed = "";
  let byMouse = false;
  let mouseIsDown = false;
  for (const [type, down] of [
    ["pointerdown", true],
    ["pointerup", false],
    ["pointercancel", false],
  ] as const) {
    window.addEventListener(type, () => (mouseIsDown = down), { capture: true });
  }

  const changeVisible = bridge.changeVisible.bind(bridge);
  bridge.changeVisible = (change) => {
    if (!change.visible && bridge.isVisible().visible) {
      typed = editorText(injector);
      byMouse = change.keycode === undefined;
      notice.hidden = true;
    }
    changeVisible(change);
  };

  // The grid asks this once what was typed stands in the cell; where the answer is no, it takes it back.
  const interceptors = injector.get(SheetInterceptorService);
  interceptors.onValidateCell = async (workbook, worksheet, row, column) => {
    const [unitId, subUnitId] = [workbook.getUnitId(), worksheet.getSheetId()];
    const cell: GridCell = { sheetId: subUnitId, row, column };
    const further = refusal(cell);
    if (further !== undefined) {
      keep({ cell, typed, reason: further, byMouse });
      return false;
    }
    const rule = rules.getRuleByLocation(unitId, subUnitId, row, column);
    if (rule?.errorStyle !== DataValidationErrorStyle.STOP) return true;
    const status = await judgedAtOnce(validator.validatorCell(unitId, subUnitId, row, column));
    if (status !== DataValidationStatus.INVALID) return true;
    const kind = injector.get(DataValidatorRegistryService).getValidatorItem(rule.type);
    const reason = kind?.getRuleFinalError(rule, { unitId, subUnitId, row, col: column }) ?? "";
    keep({ cell, typed, reason, byMouse });
    return false;
  };

  const keep = (what: Refused): void => {
    const comeBack = (): void => {
      if (what.byMouse) goTo(what.cell);
      typeAgain(what.typed);
      tell(what.reason);
    };
    // The grid takes the value back as soon as it has the answer, and no key comes before that.
    if (!what.byMouse) void turns().then(comeBack);
    // Until the mouse is let go the grid selects what is under it.
    else if (mouseIsDown)
      window.addEventListener("pointerup", () => setTimeout(comeBack), { capture: true, once: true });
    else setTimeout(comeBack);
  };

  const tell = (reason: string): void => {
    notice.replaceChildren(element("strong", reason), element("span", NEXT));
    notice.hidden = false;
    const place = bridge.getEditCellLayout();
    if (!place) return;
    const { position, canvasOffset } = place;
    const left = Math.min(canvasOffset.left + position.startX, window.innerWidth - notice.offsetWidth - 8);
    const below = canvasOffset.top + position.endY + 6;
    const above = canvasOffset.top + position.startY - 6 - notice.offsetHeight;
    notice.style.left = `${String(Math.max(8, left))}px`;
    // Below the cell its list may be open.
    notice.style.top = `${String(above < 8 ? below : above)}px`;
  };
}

/**
 * What a rule says, or nothing where it cannot say before the next key may arrive, since a formula that it reads has never been
 * worked out: waiting for that would let keys go astray, and the value is marked as wrong later on.
 */
async function judgedAtOnce<T>(judgement: Promise<T>): Promise<T | undefined> {
  let judged: { readonly value: T } | undefined;
  void judgement.then((value) => (judged = { value }));
  for (let turn = 0; judged === undefined && turn < TURNS; turn += 1) await undefined;
  return judged?.value;
}

async function turns(): Promise<void> {
  for (let turn = 0; turn < TURNS; turn += 1) await undefined;
}

function editorText(injector: Injector): string {
  const editor = injector
    .get(IUniverInstanceService)
    .getUnit<DocumentDataModel>(DOCS_NORMAL_EDITOR_UNIT_ID_KEY, UniverInstanceType.UNIVER_DOC);
  // Lines end in \r, the whole in \r\n.
  return (editor?.getBody()?.dataStream ?? "").replace(/\r\n$/, "").replaceAll("\r", " ");
}

/** As if it came from the keyboard: the grid opens the cell's editor for it. */
function typeAgain(text: string): void {
  const editor = document.getElementById(`__editor_${DOCS_NORMAL_EDITOR_UNIT_ID_KEY}`);
  if (!editor || text === "") return;
  editor.focus();
  editor.textContent = text;
  editor.dispatchEvent(new InputEvent("input", { data: text, inputType: "insertText" }));
}

function element(name: string, text: string): HTMLElement {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}
