/** A call, an input or a value that cannot be taken: every message a line. */
export class Refused extends Error {
  override readonly name = "Refused";
  constructor(readonly messages: readonly string[]) {
    super(messages.join("\n"));
  }
}
