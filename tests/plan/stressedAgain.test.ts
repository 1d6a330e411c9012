/**
 * All tendons stressed again before the superimposed load: creep and shrinkage up to then are made up for, and what Annex B
 * and 3.1.4 of EN 1992-1-1 leave of them goes into (5.46), with relaxation in full. Recomputed from the clauses.
 */
import { expect, test } from "vitest";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";
import { templates } from "../../src/templates/index.ts";
import { builtSheet } from "./builtSheet.ts";

const id = "post-tensioned-en1992-2004";
const example = templates.find((t) => t.id === id)!.example.inputs;

test("the losses left are those of the creep and shrinkage still to come", () => {
  const sheet = builtSheet(id, { ...example, tAgain: 45 });
  const { rows } = beam({ ...alderQuay, tAgain: 45 });
  const once = beam(alderQuay).rows;
  sheet.agree(
    "dcsr",
    rows.map(({ dcsr }) => dcsr),
  );
  sheet.agree(
    "lCr",
    rows.map(({ creep }) => creep),
  );
  sheet.agree(
    "lSh",
    rows.map(({ shrinkage }) => shrinkage),
  );
  sheet.agree(
    "lRe",
    rows.map(({ relaxation }) => relaxation),
  );
  sheet.agree(
    "Pinf",
    rows.map(({ Pinf }) => Pinf / 1000),
  );
  rows.forEach(({ dcsr }, i) => expect(dcsr).toBeLessThan(once[i]!.dcsr));
  expect(sheet.verdicts().overall).toBe("WARNINGS");
});
