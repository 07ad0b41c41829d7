/**
 * Binds the built cell functions into the grid's formula engine, as the spreadsheet program would: what an argument
 * looks like when it arrives, what an answer may be, and where an error's message goes. Ids, parameters and types come
 * from `functions.json` alone.
 */
import {
  type Injector,
  IUniverInstanceService,
  type Nullable,
  UniverInstanceType,
  type Workbook,
} from "@univerjs/core";
import type {
  BaseReferenceObject,
  BaseValueObject,
  ErrorType,
  FunctionVariantType,
  IFunctionInfo,
} from "@univerjs/engine-formula";
import {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorValueObject,
  FunctionType,
  IFunctionService,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";

import { blockName } from "../../workbook/plan/address";
import { NAMESPACE } from "../../workbook/plan/namespace";
import type { MessageBook } from "./messages";

interface FunctionParameter {
  readonly name: string;
  readonly description?: string;
  readonly type?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
  readonly repeating?: boolean;
}

interface FunctionDescription {
  readonly id: string;
  readonly name: string;
  readonly description?: string;
  readonly helpUrl?: string;
  readonly parameters: readonly FunctionParameter[];
  readonly options?: { readonly requiresParameterAddresses?: boolean };
  readonly result: { readonly dimensionality?: string; readonly type?: string };
}

/** `functions.json`, as the build writes it. */
export interface FunctionsMetadata {
  readonly functions: readonly FunctionDescription[];
  /** Without it an error inside an argument ends the call before the function sees it. */
  readonly allowErrorForDataTypeAny?: boolean;
}

/** How an empty cell reaches a function: desktop hosts say the number 0, others nothing. */
export type EmptyCells = "zero" | "null";

export type CellFunction = (...args: unknown[]) => unknown;

/** The `CustomFunctions` global that `functions.js` expects, and what it has associated so far. */
interface FunctionsGlobal {
  readonly customFunctions: {
    readonly associate: (idOrMap: string | Readonly<Record<string, CellFunction>>, cellFunction?: CellFunction) => void;
    readonly Error: typeof CellError;
    readonly ErrorCode: typeof errorCodes;
  };
  readonly associated: ReadonlyMap<string, CellFunction>;
}

const errorCodes = {
  invalidValue: "#VALUE!",
  notAvailable: "#N/A",
  divisionByZero: "#DIV/0!",
  invalidNumber: "#NUM!",
  nullReference: "#NULL!",
  invalidName: "#NAME?",
  invalidReference: "#REF!",
} as const;

/** Only these two show their message in the spreadsheet program. */
const codesWithMessage: ReadonlySet<string> = new Set([errorCodes.invalidValue, errorCodes.notAvailable]);

/** `CustomFunctions.Error`: what a function throws, and what an error cell looks like when it arrives in an argument. */
class CellError extends Error {
  constructor(
    readonly code: string,
    message?: string,
  ) {
    super(message ?? "");
    this.name = "CustomFunctions.Error";
  }
}

/** A fresh `CustomFunctions` global. Each loading of `functions.js` gets its own. */
export function createFunctionsGlobal(): FunctionsGlobal {
  const associated = new Map<string, CellFunction>();
  return {
    associated,
    customFunctions: {
      associate: (idOrMap, cellFunction) => {
        const entries = typeof idOrMap === "string" ? { [idOrMap]: cellFunction } : idOrMap;
        for (const [id, implementation] of Object.entries(entries)) {
          if (typeof implementation !== "function") throw new TypeError(`No function was given for ${id}.`);
          associated.set(id, implementation);
        }
      },
      Error: CellError,
      ErrorCode: errorCodes,
    },
  };
}

interface Binding {
  readonly metadata: FunctionsMetadata;
  readonly implementations: ReadonlyMap<string, CellFunction>;
  readonly messages: MessageBook;
  /** Asked at every call, so that a page can change its mind between two calculations. */
  readonly emptyCells: () => EmptyCells;
}

/**
 * Registers every function of `functions.json` as `TWIRL.ID`.
 * Throws if `functions.js` has not associated an id that `functions.json` names.
 */
export function bindCustomFunctions(injector: Injector, binding: Binding): void {
  const service = injector.get(IFunctionService);
  const addressOf = addressesIn(injector);
  const executors = binding.metadata.functions.map((description) => {
    const implementation = binding.implementations.get(description.id);
    if (implementation === undefined) {
      throw new Error(`functions.json names ${description.id}, but functions.js does not bring it.`);
    }
    return new CustomFunctionExecutor(description, implementation, { ...binding, addressOf });
  });
  service.registerExecutors(...executors);
  service.registerDescriptions(...binding.metadata.functions.map(helpOf));
}

function helpOf(description: FunctionDescription): IFunctionInfo {
  const about = description.description ?? "";
  return {
    functionName: gridName(description.id),
    functionType: FunctionType.User,
    description: about,
    abstract: about,
    functionParameter: description.parameters.map((parameter) => ({
      name: parameter.name,
      detail: parameter.description ?? "",
      // The grid puts these into a call of the function, beside the names: better those than a row of commas.
      example: parameter.name,
      require: parameter.optional === true ? 0 : 1,
      repeat: parameter.repeating === true ? 1 : 0,
    })),
  };
}

function gridName(id: string): string {
  return `${NAMESPACE}.${id}`.toUpperCase();
}

/** An argument that may not reach the function: the call is answered with this error at once. */
class Refused {
  constructor(
    readonly code: string,
    readonly message: string,
  ) {}
}

class CustomFunctionExecutor extends BaseFunction {
  // The engine's own count of arguments answers #N/A without a word: `gather` says which argument is missing instead.
  override minParams = -1;
  override maxParams = -1;
  // A range as it is referred to and not only its cells: a message then names the sheet's own cell.
  override needsReferenceObject = true;

  constructor(
    private readonly description: FunctionDescription,
    private readonly implementation: CellFunction,
    private readonly binding: Binding & { readonly addressOf: (range: BaseReferenceObject) => string | undefined },
  ) {
    super(gridName(description.id));
  }

  override calculate(...given: FunctionVariantType[]): BaseValueObject {
    // Whatever is thrown here would stop the calculation of the whole workbook.
    try {
      const variants = given.map((variant) => (isReference(variant) ? variant.toArrayValueObject() : variant));
      const args = this.gather(variants as BaseValueObject[]);
      if (args instanceof Refused) return this.errorAt(0, 0, args.code, args.message);
      this.binding.messages.succeed(this.cell(0, 0));
      return this.answer(this.implementation(...args, this.invocation(given)));
    } catch (thrown) {
      if (thrown instanceof CellError) return this.errorAt(0, 0, thrown.code, thrown.message);
      return this.errorAt(0, 0, errorCodes.invalidValue, `${this.name} stopped unexpectedly: ${String(thrown)}`);
    }
  }

  /** What a host hands over after the arguments; where the ranges stand only for a function that asks for it. */
  private invocation(given: readonly FunctionVariantType[]): Record<string, unknown> {
    const functionName = this.name;
    if (this.description.options?.requiresParameterAddresses !== true) return { functionName };
    const parameterAddresses = this.description.parameters.map((_, index) => {
      const variant = given[index];
      return variant !== undefined && isReference(variant) ? this.binding.addressOf(variant) : undefined;
    });
    return { functionName, parameterAddresses };
  }

  private gather(variants: readonly BaseValueObject[]): unknown[] | Refused {
    const { parameters } = this.description;
    const repeating = parameters.at(-1)?.repeating === true;
    if (!repeating && variants.length > parameters.length) {
      return new Refused(errorCodes.invalidValue, `${this.name} takes at most ${parameters.length} arguments.`);
    }
    const args: unknown[] = [];
    for (const [index, parameter] of parameters.entries()) {
      if (parameter.repeating === true) {
        const values = variants.slice(index).map((variant) => this.argument(parameter, variant));
        const refused = values.find((value) => value instanceof Refused);
        if (refused !== undefined) return refused;
        args.push(values);
        continue;
      }
      const value = this.argument(parameter, variants[index]);
      if (value instanceof Refused) return value;
      args.push(value);
    }
    return args;
  }

  /** One argument, as the spreadsheet program hands it over. */
  private argument(parameter: FunctionParameter, variant: BaseValueObject | undefined): unknown {
    if (variant === undefined || isLeftOut(variant)) {
      if (parameter.optional === true) return null;
      // The engine hands over an empty cell and an argument left out between commas alike: both are an empty cell here.
      if (variant === undefined) return new Refused(errorCodes.invalidValue, `${parameter.name} is missing.`);
    }
    const block = variant.isArray() ? (variant as ArrayValueObject).getArrayValue() : [[variant]];
    if (parameter.dimensionality === "matrix") return this.matrix(parameter, block);
    if (block.length !== 1 || block[0]?.length !== 1) {
      return new Refused(errorCodes.invalidValue, `${parameter.name} takes one cell, not a range.`);
    }
    return this.value(parameter, block[0][0]);
  }

  private matrix(
    parameter: FunctionParameter,
    block: readonly (readonly Nullable<BaseValueObject>[])[],
  ): unknown[][] | Refused {
    const rows: unknown[][] = [];
    for (const line of block) {
      const row: unknown[] = [];
      for (let column = 0; column < line.length; column += 1) {
        const value = this.value(parameter, line[column]);
        if (value instanceof Refused) return value;
        row.push(value);
      }
      rows.push(row);
    }
    return rows;
  }

  private value(parameter: FunctionParameter, cell: Nullable<BaseValueObject>): unknown {
    if (!cell || cell.isNull()) {
      return this.binding.emptyCells() === "zero" ? 0 : null;
    }
    if (cell.isError()) {
      const code = String(cell.getValue());
      if (this.binding.metadata.allowErrorForDataTypeAny === true && isAny(parameter)) return new CellError(code);
      return new Refused(code, "");
    }
    return converted(parameter, cell.getValue());
  }

  /** A function's answer as the engine keeps it: one value, or a block that spills. */
  private answer(result: unknown): BaseValueObject {
    if (!Array.isArray(result)) return this.answerCell(result, 0, 0);
    const rows: readonly unknown[][] = result.map((row: unknown) => (Array.isArray(row) ? row : [row]));
    const columnCount = rows[0]?.length ?? 0;
    if (columnCount === 0 || rows.some((row) => row.length !== columnCount)) {
      return this.errorAt(0, 0, errorCodes.invalidValue, `${this.name} answered a block that is not rectangular.`);
    }
    return ArrayValueObject.create({
      calculateValueList: rows.map((row, r) => row.map((value, c) => this.answerCell(value, r, c))),
      rowCount: rows.length,
      columnCount,
      unitId: "",
      sheetId: "",
      row: -1,
      column: -1,
    });
  }

  private answerCell(value: unknown, row: number, column: number): BaseValueObject {
    if (value instanceof CellError) return this.errorAt(row, column, value.code, value.message);
    if (typeof value === "string") return StringValueObject.create(value);
    if (typeof value === "boolean") return BooleanValueObject.create(value);
    if (value === null || value === undefined) return NumberValueObject.create(0);
    if (typeof value !== "number") {
      return this.errorAt(row, column, errorCodes.invalidValue, `${this.name} answered something a cell cannot hold.`);
    }
    // The spreadsheet program would show 0 here without a word; a page for trying out must not hide it.
    if (!Number.isFinite(value)) return ErrorValueObject.create(errorCodes.invalidNumber as ErrorType);
    return NumberValueObject.create(value);
  }

  private errorAt(row: number, column: number, code: string, message: string): ErrorValueObject {
    if (message !== "" && codesWithMessage.has(code)) {
      this.binding.messages.fail(this.cell(row, column), { code, message, functionName: String(this.name) });
    }
    return ErrorValueObject.create(code as ErrorType);
  }

  private cell(rowOffset: number, columnOffset: number): { sheetId: string; row: number; column: number } {
    return { sheetId: this.subUnitId ?? "", row: this.row + rowOffset, column: this.column + columnOffset };
  }
}

function isReference(variant: FunctionVariantType): variant is BaseReferenceObject {
  return variant.isReferenceObject();
}

/** A range's place as the spreadsheet program writes it: `'Practice 2027'!E5:E204`. */
function addressesIn(injector: Injector): (range: BaseReferenceObject) => string | undefined {
  return (range) => {
    const workbook = injector
      .get(IUniverInstanceService)
      .getUnit<Workbook>(range.getUnitId(), UniverInstanceType.UNIVER_SHEET);
    const sheet = workbook?.getSheetBySheetId(range.getSheetId())?.getName();
    const { startRow, startColumn, endRow, endColumn } = range.getRangePosition();
    // Whole columns and rows have no number there.
    if (sheet === undefined || ![startRow, startColumn, endRow, endColumn].every(Number.isInteger)) return undefined;
    const block = {
      row: startRow + 1,
      column: startColumn + 1,
      rows: endRow - startRow + 1,
      columns: endColumn - startColumn + 1,
    };
    return `'${sheet.replaceAll("'", "''")}'!${blockName(block)}`;
  };
}

function isLeftOut(variant: BaseValueObject): boolean {
  return !variant.isArray() && variant.isNull();
}

function isAny(parameter: FunctionParameter): boolean {
  return parameter.type === undefined || parameter.type === "any";
}

/** A cell's value as the parameter's type asks for it; a host refuses what does not fit before the call. */
function converted(parameter: FunctionParameter, value: string | number | boolean): unknown {
  switch (parameter.type) {
    case "number": {
      if (typeof value === "number") return value;
      if (typeof value === "boolean") return value ? 1 : 0;
      const number = value.trim() === "" ? Number.NaN : Number(value);
      // Text inside a block of numbers is refused even where it looks like a number.
      if (Number.isNaN(number) || parameter.dimensionality === "matrix") {
        return new Refused(errorCodes.invalidValue, `${parameter.name} takes numbers; found "${value}".`);
      }
      return number;
    }
    case "string":
      return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
    case "boolean":
      if (typeof value === "string") {
        return new Refused(errorCodes.invalidValue, `${parameter.name} takes TRUE or FALSE; found "${value}".`);
      }
      return Boolean(value);
    case undefined:
    default:
      return value;
  }
}
