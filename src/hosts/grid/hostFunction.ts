import type { Nullable } from "@univerjs/core";
import type { ArrayValueObject, BaseFunction, BaseValueObject, ErrorType } from "@univerjs/engine-formula";
import type { WorksheetFunction } from "../../../functions/index.ts";
import { cellKey, type CellErrors } from "./cellErrors.ts";
import type { GridRuntime } from "./runtime.ts";

const mostArguments = 255;

type Value = number | string | boolean | null;

const valueOf = (object: Nullable<BaseValueObject>): Value => (!object || object.isNull() ? null : object.getValue());

/** Makes the grid's own function objects of worksheet functions. */
export function hostFunctions(
  { formula: engine }: Pick<GridRuntime, "formula">,
  functions: readonly WorksheetFunction[],
  errors: CellErrors,
): readonly BaseFunction[] {
  /** Rows that fill a block of cells. */
  const block = (rows: readonly (readonly number[])[]): BaseValueObject =>
    new engine.ArrayValueObject({
      calculateValueList: rows.map((row) => row.map((value) => engine.NumberValueObject.create(value))),
      rowCount: rows.length,
      columnCount: rows[0]?.length ?? 0,
      unitId: "",
      sheetId: "",
      row: 0,
      column: 0,
    });

  class HostFunction extends engine.BaseFunction {
    constructor(private readonly worksheetFunction: WorksheetFunction) {
      super(worksheetFunction.name);
      // The grid refuses a wrong number of arguments without a word; the core says which is missing.
      this.minParams = 0;
      this.maxParams = mostArguments;
    }

    override calculate(...given: BaseValueObject[]): BaseValueObject {
      const cell = cellKey(this.subUnitId ?? "", this.row, this.column);
      const args: (Value | Value[][])[] = [];
      for (const argument of given) {
        if (argument.isError()) return argument;
        if (!argument.isArray()) {
          args.push(valueOf(argument));
          continue;
        }
        const rows: Value[][] = [];
        let error: BaseValueObject | undefined;
        (argument as ArrayValueObject).iterator((object, row, column) => {
          if (object && object.isError()) error ??= object;
          (rows[row] ??= [])[column] = valueOf(object);
        });
        if (error) return error;
        args.push(rows);
      }
      const result = this.worksheetFunction.call(args);
      if ("error" in result) {
        const { code, message } = result.error;
        errors.refused(cell, this.worksheetFunction.name, code, message);
        return engine.ErrorValueObject.create(code as ErrorType, message);
      }
      errors.computed(cell);
      const { value } = result;
      if (typeof value === "number") return engine.NumberValueObject.create(value);
      if (typeof value === "string") return engine.StringValueObject.create(value);
      return block(value);
    }
  }
  return functions.map((f) => new HostFunction(f));
}
