/** Where a command says what it did, and what is wrong. */
export interface Voice {
  readonly say: (line: string) => void;
  readonly complain: (line: string) => void;
}
