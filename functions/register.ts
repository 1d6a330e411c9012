import type { Argument } from "../src/core/index.ts";
import { worksheetFunctions, type WorksheetFunction } from "./worksheetFunctions.ts";

/** What this uses of the host's own object. */
export interface CustomFunctionsHost {
  readonly associate: (id: string, run: (...args: never[]) => unknown) => void;
  readonly Error: new (code: CustomFunctions.ErrorCode, message?: string) => CustomFunctions.Error;
  readonly ErrorCode: {
    readonly invalidValue: CustomFunctions.ErrorCode.invalidValue;
    readonly invalidNumber: CustomFunctions.ErrorCode.invalidNumber;
  };
}

/** The host's arguments as `call` takes them: without its trailing invocation object, the repeating ones one after another. */
function argumentsOf({ parameters }: WorksheetFunction, given: readonly unknown[]): readonly Argument[] {
  const args = given.slice(0, parameters.length);
  if (!parameters.at(-1)?.repeating) return args as readonly Argument[];
  const repeated = args.length === parameters.length ? args.pop() : undefined;
  return [...args, ...(Array.isArray(repeated) ? (repeated as unknown[]) : [])] as readonly Argument[];
}

/**
 * Associates every function with its id; errors become the host's own. When this is called the host has `associate` only: its part for the
 * program, with the error class and the codes, comes later, so they are asked for at the error.
 */
export function register(
  host: CustomFunctionsHost,
  functions: readonly WorksheetFunction[] = worksheetFunctions,
): void {
  for (const f of functions) {
    host.associate(f.id, (...given: unknown[]) => {
      const result = f.call(argumentsOf(f, given));
      if ("value" in result) return result.value;
      const { code, message } = result.error;
      // The number error takes no message. The host's own error class, whatever it derives from, is what it understands.
      // eslint-disable-next-line @typescript-eslint/only-throw-error
      throw code === "#NUM!"
        ? new host.Error(host.ErrorCode.invalidNumber)
        : new host.Error(host.ErrorCode.invalidValue, message);
    });
  }
}
