/**
 * What the page says about cells: the selected cell's value with a function's message or what may be typed there, and
 * the list of all messages. It is text beside the grid, so that a screen reader reads what the grid only draws.
 */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-data-validation/facade";
import type { FUniver } from "@univerjs/core/facade";

import { cellName } from "../workbook/plan/address";
import { goTo, valueAt } from "../grid/grid";
import type { GridCell, MessageBook, PlacedMessage } from "../grid/engine/messages";

interface CellNotes {
  /** Says anew what is true now: after a calculation, or when another cell is selected. */
  refresh(): void;
}

export function cellNotes(api: FUniver, messages: MessageBook): CellNotes {
  const selected = byId("selected");
  const list = byId("messages");
  const heading = list.querySelector("summary");
  const items = list.querySelector("ul");
  if (heading === null || items === null) throw new Error("The page has no room for messages.");
  let listed = "";

  const refreshSelected = (): void => {
    const parts = describeSelected(api, messages);
    const words = parts.map((part) => (typeof part === "string" ? part : part.textContent)).join("");
    // Unchanged words are not said twice by a screen reader.
    if (selected.textContent !== words) selected.replaceChildren(...parts);
  };

  const refreshList = (): void => {
    const current = messages.current((cell) => valueAt(api, cell));
    const key = JSON.stringify(current);
    if (key === listed) return;
    listed = key;
    list.hidden = current.length === 0;
    heading.textContent = `Messages (${String(current.length)})`;
    items.replaceChildren(...current.map((message) => listItem(api, message)));
  };

  return {
    refresh: () => {
      refreshSelected();
      refreshList();
    },
  };
}

function listItem(api: FUniver, message: PlacedMessage): HTMLLIElement {
  const button = document.createElement("button");
  button.type = "button";
  button.append(`${addressOf(api, message)}: `, strong(message.code), ` ${message.message}`);
  button.addEventListener("click", () => goTo(api, message));
  const item = document.createElement("li");
  item.append(button);
  return item;
}

function addressOf(api: FUniver, cell: GridCell): string {
  const sheet = api.getActiveWorkbook()?.getSheetBySheetId(cell.sheetId)?.getSheetName() ?? "";
  return `${sheet} ${cellName({ row: cell.row + 1, column: cell.column + 1 })}`;
}

function describeSelected(api: FUniver, messages: MessageBook): (string | HTMLElement)[] {
  const sheet = api.getActiveWorkbook()?.getActiveSheet();
  const range = sheet?.getActiveCell();
  if (!sheet || !range) return [];
  const cell = { sheetId: sheet.getSheetId(), row: range.getRow(), column: range.getColumn() };
  const address = addressOf(api, cell);
  const value = valueAt(api, cell);
  const message = messages.at(cell);
  if (message !== undefined && message.code === value) {
    return [`${address}: `, strong(message.code), ` ${message.message}`];
  }
  const shown = range.getDisplayValue();
  const hint = range.getDataValidation()?.rule;
  const said = [`${address}${shown === "" ? "" : `: ${shown}`}`];
  if (hint?.prompt) said.push(hint.promptTitle ? `${hint.promptTitle}: ${hint.prompt}` : hint.prompt);
  return [said.join(" — ")];
}

function strong(text: string): HTMLElement {
  const element = document.createElement("strong");
  element.textContent = text;
  return element;
}

function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`The page has no #${id}.`);
  return element;
}
