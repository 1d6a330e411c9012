import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { MutantInFile } from "./bundle.ts";
import { Records } from "./records.ts";

const file = "src/core/formulas/friction/frictionStress.ts";
const mutant = (id: number): MutantInFile => ({
  id,
  file,
  line: id,
  at: id,
  was: "a + b",
  becomes: "a - b",
  isRange: false,
});
const all = [1, 2, 3, 4, 5].map(mutant);

describe("records of earlier runs", () => {
  const folder = mkdtempSync(join(tmpdir(), "mutation-"));
  beforeAll(() => void vi.spyOn(console, "log").mockImplementation(() => undefined));
  afterAll(() => {
    vi.restoreAllMocks();
    rmSync(folder, { recursive: true });
  });

  it("count survivors like those killed, whether or not a short run comes to them again", () => {
    const place = join(folder, "mutation.json");
    const first = new Records(true, place);
    first.note(all[0]!, "killed");
    first.note(all[1]!, "survived");
    first.note(all[2]!, "not met");
    first.save();
    const second = new Records(false, place);
    second.note(all[3]!, "never ends");
    // Noticed: the first and the fourth; the fifth was never tried.
    expect(second.report(all)).toBe(50);
    expect(new Records(true, place).report(all)).toBe(0);
  });
});
