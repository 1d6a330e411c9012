/** Which mutant is awake, which were met, and the operators as functions: what instrumented code calls `mutants`. */
export class Switches {
  awake = -1;
  met: Set<number> | undefined;

  readonly on = (id: number): boolean => {
    this.met?.add(id);
    return id === this.awake;
  };

  readonly add = (a: number, b: number): number => a + b;
  readonly subtract = (a: number, b: number): number => a - b;
  readonly multiply = (a: number, b: number): number => a * b;
  readonly divide = (a: number, b: number): number => a / b;
  readonly remainder = (a: number, b: number): number => a % b;
  readonly power = (a: number, b: number): number => a ** b;
  readonly less = (a: number, b: number): boolean => a < b;
  readonly atMost = (a: number, b: number): boolean => a <= b;
  readonly more = (a: number, b: number): boolean => a > b;
  readonly atLeast = (a: number, b: number): boolean => a >= b;
  readonly equal = (a: unknown, b: unknown): boolean => a === b;
  readonly other = (a: unknown, b: unknown): boolean => a !== b;
  readonly and = <A, B>(a: A, b: () => B): A | B => a && b();
  readonly or = <A, B>(a: A, b: () => B): A | B => a || b();
  readonly given = <A, B>(a: A, b: () => B): A | B => a ?? b();
  readonly right = <B>(_: unknown, b: () => B): B => b();
  readonly same = <T>(a: T): T => a;
  readonly not = (a: unknown): boolean => !a;
  readonly negative = (a: number): number => -a;
}
