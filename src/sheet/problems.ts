/** A template or inputs that must not become a sheet, with everything that is wrong. */
export class RefusedSheet extends Error {
  override readonly name = "RefusedSheet";
  constructor(readonly problems: readonly string[]) {
    super(problems.join("\n"));
  }
}

/** Collects messages, each once. */
export class Problems {
  private readonly seen = new Set<string>();

  add(place: string, message: string): void {
    this.seen.add(place === "" ? message : `${place}: ${message}`);
  }

  get list(): readonly string[] {
    return [...this.seen];
  }
}
