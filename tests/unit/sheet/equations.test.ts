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
