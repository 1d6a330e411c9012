import { describe, expect, it } from "vitest";
import { bundle, coreFiles } from "./bundle.ts";
import { Worker } from "./pool.ts";

describe("core and tests in one piece", () => {
  it("hold tests that pass without a mutant and notice each of a file they meet", async () => {
    const { code, mutants } = await bundle(coreFiles(["friction/frictionStress.ts"]), { folders: ["unit/mechanics"] });
    const worker = new Worker(code);
    try {
      const watched = await worker.ask({ watch: true }, 120_000);
      if (!watched || !("seen" in watched)) throw new Error("the tests did not end");
      const { seen } = watched;
      expect(seen.filter(({ failed }) => failed)).toEqual([]);
      expect(mutants.length).toBeGreaterThan(0);
      for (const { id, was, becomes } of mutants) {
        const tests = seen.flatMap(({ met }, at) => (met.includes(id) ? [at] : []));
        const answer = await worker.ask({ mutant: id, tests, most: 20_000 }, 60_000);
        expect(answer, `${was} > ${becomes}`).toMatchObject({ killedBy: expect.stringMatching(/./) as string });
      }
    } finally {
      worker.end();
    }
  });
});
