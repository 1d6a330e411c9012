import { expect, it } from "vitest";
import { expand } from "../../../src/sheet/index.ts";
import { templates } from "../../../src/templates/index.ts";

/** Symbols of the standard may hold a + themselves: Δσ_p,c+s+r of EN 1992-1-1, (5.46). */
it("sets signs between symbols apart, and leaves those within a symbol alone", () => {
  const read = templates
    .flatMap((template) => expand(template, template.example.inputs).cells)
    .filter(({ role }) => role === "equation")
    .map(({ value }) => String(value));
  expect(read).toContain("Δσc+s+r = Δσc + Δσs + Δσr");
  expect(read).toContain("Δσp,c+s+r = (εcs Ep + 0.8 Δσpr + (Ep/Ecm) Σφi Δσc,i)/D");
  expect(read.filter((text) => /c \+ s \+ r|μ \+ sl/.test(text))).toEqual([]);
  expect(read).toContain("Mqp = Ms + ψ2·Mq");
});

it("says what is computed, then the words that may stand in its place", () => {
  const template = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
  const cells = expand(template, template.example.inputs).cells;
  const read = cells.filter(({ role }) => role === "equation").map(({ value }) => String(value));
  // max({uRadius[]}) unless no limit is given or a kink is too sharp: the formula of the row "radius of tendon curvature".
  expect(read).toContain("max uR = max(all uR); or “no limit”, “kink”");
  expect(read.filter((text) => text.includes("KERN."))).toEqual([]);
  // The sheet's own standard is named at its end, not beside each clause.
  const sources = cells.filter(({ role }) => role === "source").map(({ value }) => String(value));
  expect(sources.some((text) => text.startsWith("5.10.6(2) (5.46)"))).toBe(true);
  expect(sources.filter((text) => text.startsWith("EN1992-1-1:2004"))).toEqual([]);
});
