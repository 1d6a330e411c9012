/** What many rows have in common stands once in the list of warnings, and what follows from an empty input is said at that input alone. */
import { describe, expect, test } from "vitest";
import { allTemplates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";

const templateOf = (id: string) => allTemplates.find((one) => one.id === id)!;

test("relaxation above 0.8 f_pk is told once for all stations", () => {
  const high = { sigj: [1850, 1850, 1850] };
  const { warnings } = computedSheet(templateOf("post-tensioned-en1992-2004"), high);
  const about = warnings.filter((text) => text.includes("beyond the usual tests of relaxation"));
  expect(about).toHaveLength(1);
  expect(about[0]).toContain("so in 19 of 19 rows");
});

test("conditions of the region in several rows are one sentence", () => {
  const { warnings } = computedSheet(templateOf("feasible-domain-post-tensioned-en1992-2004"), {
    sigj: [1850, 1850, 1850],
  });
  for (const text of warnings) expect(text.match(/is outside the everyday range/g)?.length ?? 0).toBeLessThan(4);
});

describe.each(["post-tensioned-is1343-1980", "pre-tensioned-is1343-1980"])("%s", (id) => {
  test("an empty limit of tension at transfer is one status, without warnings that follow from it", () => {
    const computed = computedSheet(templateOf(id), { ftTransferIn: null });
    expect(computed.warnings).toEqual([]);
    expect(computed.check("uTension")).toMatchObject({ verdict: "LIMIT MISSING", where: "input f_t,0 is empty" });
    expect(computed.overall).toBe("INCOMPLETE");
  });
});
