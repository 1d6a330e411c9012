import { expect, it } from "vitest";
import { format } from "../../../src/core/index.ts";
import { plainText } from "../../../src/hosts/grid/cells.ts";
import { printed } from "../../../src/hosts/host/planValues.ts";
import { numberText, withUnit } from "../../../src/typeset/index.ts";

it("a negative zero is shown as 0, and so is what a number format rounds to it", () => {
  expect(format(-0)).toBe("0");
  expect(numberText(-0)).toBe("0");
  expect(withUnit(-0, "MPa")).toBe("0 MPa");
  expect(plainText(-0)).toBe("0");
  expect(printed(-0)).toBe("0");
  expect(printed(-0, "0.00")).toBe("0.00");
  expect(printed(-0.001, "0.00")).toBe("0.00");
  expect(printed(-0.4, "0")).toBe("0");
});
