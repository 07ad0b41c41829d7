/**
 * A sheet's rows with its changes in them. The part is read once more, row by row, and only the cells that changed are
 * written anew, in its own text.
 */
import type { IRange } from "@univerjs/core";

import { element } from "../../../xlsx/xml/write";
import type { CellChange } from "./changes";
import { type CellWriting, newCellXml, refreshedCellXml, showsAnswer, spilledCellXml } from "./write";
import { type ShiftedFormula, shiftedFormula } from "../../../xlsx/formulas/shifting";
import { contains, type GridPlace, parsePlace, parseRange, rangeName } from "../../../xlsx/ranges";
import type { ReadSheet } from "../open";
import { styleNumber } from "../styles/read";
import type { XmlEdits } from "../../../xlsx/xml/edits";
import { child, parseXml, type XmlElement } from "../../../xlsx/xml/tree";

export interface RowChange {
  /** In points; null gives the row back its usual height. */
  readonly height?: number | null;
  readonly isHidden?: boolean;
}

interface RowChanges {
  readonly cells: ReadonlyMap<number, ReadonlyMap<number, CellChange>>;
  readonly rows: ReadonlyMap<number, RowChange>;
}

type ChangedCells = (readonly [column: number, change: CellChange])[];

export function writeRows(edits: XmlEdits, file: ReadSheet, changes: RowChanges, writing: CellWriting): void {
  if (changes.cells.size === 0 && changes.rows.size === 0) return;
  new RowWriter(edits, file, changes, writing).run();
}

class RowWriter {
  private readonly source: string;
  /** The changed rows that are still to come, in order. */
  private readonly waiting: number[];
  private row = -1;
  private column = -1;
  /** Formulas that stood for several cells, and whose own cell no longer holds them. */
  private readonly broken = new Map<string, { readonly formula: ShiftedFormula; readonly at: GridPlace }>();
  /** Blocks that a formula filled once and no longer fills. */
  private readonly emptied: { readonly from: IRange; readonly but: IRange | undefined }[] = [];

  constructor(
    private readonly edits: XmlEdits,
    private readonly file: ReadSheet,
    private readonly changes: RowChanges,
    private readonly writing: CellWriting,
  ) {
    this.source = file.source;
    this.waiting = [...new Set([...changes.cells.keys(), ...changes.rows.keys()])].sort((one, other) => one - other);
  }

  run(): void {
    const data = child(this.file.root, "sheetData");
    if (data === undefined) throw new Error(`The sheet ${this.file.entry.name} has no place for cells.`);
    let last: XmlElement | undefined;
    parseXml(this.source, {
      parent: "sheetData",
      each: (row) => {
        if (row.name !== "row") return;
        this.existingRow(row);
        last = row;
      },
    });
    const added = this.addedRows(Number.POSITIVE_INFINITY);
    if (added === "") return;
    if (last) this.edits.insertAfter(last, added);
    else this.edits.append(data, added);
  }

  /** Rows before the given one that the file does not have. */
  private addedRows(before: number): string {
    let xml = "";
    for (let row = this.waiting[0]; row !== undefined && row < before; row = this.waiting[0]) {
      this.waiting.shift();
      const change = this.changes.rows.get(row);
      const cells = this.addedCells(row, this.changedCells(row), Number.POSITIVE_INFINITY);
      if (cells === "" && change === undefined) continue;
      xml += element(
        `${this.writing.prefix}row`,
        {
          r: row + 1,
          ht: change?.height ?? undefined,
          customHeight: change?.height ? 1 : undefined,
          hidden: change?.isHidden ? 1 : undefined,
        },
        ...(cells === "" ? [] : [cells]),
      );
    }
    return xml;
  }

  /** Cells of a row that the file does not have, up to one of its own. */
  private addedCells(row: number, cells: ChangedCells, before: number): string {
    let xml = "";
    for (let next = cells.at(-1); next !== undefined && next[0] < before; next = cells.at(-1)) {
      cells.pop();
      xml += this.addedCell({ row, column: next[0] }, next[1]);
    }
    if (cells.at(-1)?.[0] === before) cells.pop();
    return xml;
  }

  /** The row's changed cells, the first one last. */
  private changedCells(row: number): ChangedCells {
    return [...(this.changes.cells.get(row) ?? [])].sort(([one], [other]) => other - one);
  }

  private addedCell(at: GridPlace, { content, answer, style }: CellChange): string {
    const number = style ?? this.styleAt(at);
    if (content !== undefined) return newCellXml(at, content, number, this.writing);
    if (answer !== undefined) return spilledCellXml(at, answer, number, this.writing);
    return style === undefined || style === 0
      ? ""
      : newCellXml(at, { kind: "value", value: { kind: "empty" } }, style, this.writing);
  }

  /** How the file draws a cell that it does not name: as what is prepared there, as its row, or as its column. */
  private styleAt({ row, column }: GridPlace): number {
    const { cellData, rowData, columnData } = this.file.sheet;
    return (
      styleNumber(cellData?.[row]?.[column]?.s) ??
      styleNumber(rowData?.[row]?.s) ??
      styleNumber(columnData?.[column]?.s) ??
      0
    );
  }

  private existingRow(element: XmlElement): void {
    const number = element.attributes["r"];
    this.row = number === undefined ? this.row + 1 : Number(number) - 1;
    this.column = -1;
    const added = this.addedRows(this.row);
    if (added !== "") this.edits.insertBefore(element, added);
    const isChanged = this.waiting[0] === this.row;
    if (isChanged) this.waiting.shift();
    const change = this.changes.rows.get(this.row);
    if (change !== undefined) this.changeRow(element, change);
    if (!isChanged && this.broken.size === 0 && this.emptied.length === 0) return;

    const changed = this.changedCells(this.row);
    let grows = false;
    const put = (place: number, xml: string): void => {
      if (xml === "") return;
      grows = true;
      this.edits.replace(place, place, xml);
    };
    for (const cell of element.children) {
      if (cell.name !== "c") continue;
      const name = cell.attributes["r"];
      this.column = name === undefined ? this.column + 1 : parsePlace(name).column;
      put(cell.start, this.addedCells(this.row, changed, this.column));
      this.existingCell(cell, { row: this.row, column: this.column });
    }
    const rest = this.addedCells(this.row, changed, Number.POSITIVE_INFINITY);
    if (rest !== "") {
      grows = true;
      this.edits.append(element, rest);
    }
    // What a row says of its first and last cell may be left out, and must not be wrong.
    if (grows) this.edits.setAttribute(element, "spans", undefined);
  }

  private changeRow(element: XmlElement, { height, isHidden }: RowChange): void {
    if (height !== undefined) {
      this.edits.setAttribute(element, "ht", height ?? undefined);
      this.edits.setAttribute(element, "customHeight", height === null ? undefined : 1);
    }
    if (isHidden !== undefined) this.edits.setAttribute(element, "hidden", isHidden ? 1 : undefined);
  }

  private existingCell(cell: XmlElement, at: GridPlace): void {
    const change = this.changes.cells.get(at.row)?.get(at.column);
    const formula = child(cell, "f");
    const style = change?.style ?? Number(cell.attributes["s"] ?? 0);
    if (change?.content !== undefined) {
      if (formula) this.losesFormula(formula, at, change.content.kind === "formula" ? change.content.block : undefined);
      this.replace(cell, newCellXml(at, change.content, style, this.writing));
      return;
    }
    const refreshed = this.refreshed(cell, formula, at, change);
    if (formula && change?.block !== undefined) this.shrinks(formula, change.block);
    if (formula === undefined && change?.answer === undefined && this.isEmptied(at)) {
      this.replace(cell, newCellXml(at, { kind: "value", value: { kind: "empty" } }, style, this.writing));
    } else if (refreshed !== undefined) {
      this.replace(cell, refreshedCellXml(this.source, cell, refreshed, this.writing));
    }
  }

  /** What is other in a cell that keeps its content, or undefined where nothing is. */
  private refreshed(
    cell: XmlElement,
    formula: XmlElement | undefined,
    at: GridPlace,
    change: CellChange | undefined,
  ): Parameters<typeof refreshedCellXml>[2] | undefined {
    const former = Number(cell.attributes["s"] ?? 0);
    const ownFormula = formula === undefined ? undefined : this.ownFormula(formula, at);
    const { answer, style } = change ?? {};
    const isOtherAnswer = answer !== undefined && !showsAnswer(cell, answer, former, this.writing);
    const block = change?.block === undefined ? undefined : rangeName(change.block);
    const isOtherBlock = block !== undefined && formula?.attributes["ref"] !== block;
    if (!isOtherAnswer && ownFormula === undefined && style === undefined && !isOtherBlock) return undefined;
    return {
      ...(isOtherAnswer ? { answer } : {}),
      ...(block === undefined ? {} : { block }),
      ...(ownFormula === undefined ? {} : { ownFormula }),
      ...(style === undefined ? {} : { style }),
    };
  }

  private replace(cell: XmlElement, xml: string): void {
    if (this.source.slice(cell.start, cell.end) !== xml) this.edits.replaceElement(cell, xml);
  }

  /** The cell's formula goes; others may have lived on it. */
  private losesFormula(formula: XmlElement, at: GridPlace, block: IRange | undefined): void {
    const id = formula.attributes["si"];
    if (formula.attributes["t"] === "shared" && id !== undefined && formula.text !== "") {
      this.broken.set(id, { formula: shiftedFormula(formula.text), at });
    }
    if (formula.attributes["t"] === "array") this.shrinks(formula, block);
  }

  private shrinks(formula: XmlElement, block: IRange | undefined): void {
    const from = parseRange(formula.attributes["ref"] ?? "");
    if (from === undefined) return;
    const isCovered = block !== undefined && block.endRow >= from.endRow && block.endColumn >= from.endColumn;
    if (!isCovered) this.emptied.push({ from, but: block });
  }

  private isEmptied(at: GridPlace): boolean {
    return this.emptied.some(({ from, but }) => contains(from, at) && !(but !== undefined && contains(but, at)));
  }

  private ownFormula(formula: XmlElement, at: GridPlace): string | undefined {
    if (formula.attributes["t"] !== "shared" || formula.text !== "") return undefined;
    const broken = this.broken.get(formula.attributes["si"] ?? "");
    return broken?.formula.at(at.row - broken.at.row, at.column - broken.at.column);
  }
}
