import { expect, it, vi } from "vitest";
import { KeptByTemplate } from "../../../src/sheet/keptByTemplate.ts";
import { copy, small } from "./small.ts";

it("is made once as long as it is asked for, and anew once many others were", () => {
  const kept = new KeptByTemplate<number>();
  const make = vi.fn(() => make.mock.calls.length);
  const other = copy();
  const ask = (key: number, of = small): number => kept.of(of, of, String(key), make);
  expect([ask(0), ask(0), ask(0, other), ask(0)]).toEqual([1, 1, 2, 1]);
  for (let key = 1; key <= 22; key++) ask(key);
  // Of 24 none was forgotten; the 25th takes the place of the one not asked for longest.
  expect([ask(0), ask(0, other)]).toEqual([1, 2]);
  ask(23);
  expect(make).toHaveBeenCalledTimes(25);
  expect([ask(0), ask(0, other)]).toEqual([1, 2]);
  expect(ask(1)).toBe(26);
});
