import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const root = join(import.meta.dirname, "../..");
function evaluate(args: readonly string[], input = "") {
  const { status, stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", "src/command/eval.ts", ...args], {
    cwd: root,
    input,
    encoding: "utf8",
  });
  return { status, lines: stdout.trimEnd().split("\n"), stderr };
}

describe("the eval command", () => {
  it("prints values at full precision, a line each, and ends with 0", () => {
    const { status, lines } = evaluate([
      'KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12)',
      "=ROUND(1/3,2)",
      "SEQUENCE(2,2)",
    ]);
    expect(lines).toEqual([String(1395 * Math.exp(-(0.2 * 0.3 + 0.003 * 12))), "0.33", "1\t2", "3\t4"]);
    expect(status).toBe(0);
  });

  it("reads a formula a line from standard input, prints errors with their message, and ends with 1", () => {
    const { status, lines } = evaluate([], '1+1\n\nKERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",-1,12)\n');
    expect(lines[0]).toBe("2");
    expect(lines[1]).toMatch(/^#VALUE! σp0 .*is below 0 MPa; allowed: above 0/);
    expect(status).toBe(1);
  });

  it("prints JSON where asked", () => {
    const { lines } = evaluate(["--json", "1+1", "SEQUENCE(1,2)", "1/0"]);
    expect(lines.map((line) => JSON.parse(line) as unknown)).toEqual([
      { formula: "1+1", value: 2 },
      { formula: "SEQUENCE(1,2)", values: [[1, 2]] },
      { formula: "1/0", error: { code: "#DIV/0!" } },
    ]);
  });

  it("ends with 2 when called wrongly", () => {
    expect(evaluate(["--jason"])).toMatchObject({ status: 2, stderr: expect.stringContaining("--jason") as string });
    expect(evaluate([]).status).toBe(2);
  });
});
