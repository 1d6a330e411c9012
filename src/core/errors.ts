/** Input the calculation must refuse. The message names the input, its value and what is allowed. */
export class InputError extends Error {
  override readonly name = "InputError";
  /** @param parameter the parameter's name in the declaration */
  constructor(
    readonly parameter: string,
    message: string,
  ) {
    super(message);
  }
}

/** Valid input for which the calculation has no answer (a search without a solution, say). */
export class NoResult extends Error {
  override readonly name = "NoResult";
}

/** Whether a calculation refused its input or has no answer for it; any other error is a fault of the program. */
export function isRefusal(error: unknown): error is InputError | NoResult {
  return error instanceof InputError || error instanceof NoResult;
}

/** What went wrong, in the words of whatever was thrown. */
export function reasonOf(thrown: unknown): string {
  return thrown instanceof Error ? thrown.message : String(thrown);
}
