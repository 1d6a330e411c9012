import { describe, expect, it } from "vitest";
import { builtSheet, exampleOf } from "./builtSheet.ts";
import { allTemplates } from "../../src/templates/index.ts";

const id = "post-tensioned-en1992-2004";
const example = exampleOf(allTemplates.find((one) => one.id === id)!);

/** A member 900 mm wide at its soffit. */
const outline = (corners: readonly (readonly [number, number])[]) => ({
  section: "OUTLINE",
  corners: corners.length,
  ox: corners.map(([x]) => x),
  oy: corners.map(([, y]) => y),
});

// EN 1992-1-1:2004 6.2.5(1): b_i is the width of the interface; widths by hand from the corners.
describe("the width on which a topping bears", () => {
  it.each([
    ["the top flange of an I, with a wider one below", { btop: 500, bbot: 900 }, 500],
    ["the top flange of an I, with a narrower one below", { btop: 900, bbot: 500 }, 900],
    ["the flange of a T", { section: "T", bf: 900, tf: 180, bw: 300 }, 900],
    ["a rectangle", { section: "RECTANGLE", b: 600 }, 600],
    [
      "both walls of a trough, not what lies between them",
      outline([
        [0, 0],
        [900, 0],
        [900, 1200],
        [700, 1200],
        [700, 400],
        [200, 400],
        [200, 1200],
        [0, 1200],
      ]),
      400,
    ],
    [
      "a top that falls by 18 mm to each side",
      outline([
        [0, 0],
        [900, 0],
        [900, 1182],
        [450, 1200],
        [0, 1182],
      ]),
      900,
    ],
    [
      "a flange of 40 mm at 1200 mm of depth",
      outline([
        [300, 0],
        [600, 0],
        [600, 1160],
        [900, 1160],
        [900, 1200],
        [0, 1200],
        [0, 1160],
        [300, 1160],
      ]),
      900,
    ],
  ] as const)("is that of %s", (_, section, width) => {
    expect(builtSheet(id, { ...example, ...section }).column("wTop")).toEqual([expect.closeTo(width, 6)]);
  });
});
