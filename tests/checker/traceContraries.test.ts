import { describe, expect, it } from "vitest";
import { saysOtherwise } from "../../src/checker/trace/contraries.ts";
import { formulas, type Quantity } from "../../src/core/index.ts";

/** A parameter by function and symbol. */
function wanted(id: string, symbol: string): Quantity {
  const found = Object.values(formulas.find((f) => f.id === id)!.params).find((p) => p.symbol === symbol);
  if (found?.kind !== "number") throw new Error(`${id} has no number ${symbol}`);
  return found;
}
const cylinder = wanted("CONCRETE_TENSILE_STRENGTH_EN1992_2004", "f_ck");
const cube = wanted("CONCRETE_MODULUS_IS1343_2012", "f_ck");
const modulus28 = wanted("CONCRETE_TANGENT_MODULUS_EN1992_2004", "E_cm");
const modulusAtTransfer = wanted("ELASTIC_LOSS_IS1343_1980", "E_c");
const modulusAtStressing = wanted("ELASTIC_LOSS_POST_EN1992_2004", "E_cm(t)");
const tendonModulus = wanted("TRANSFORMED_SECTION", "E_p");
const tensile = wanted("RELAXATION_LOSS_EN1992_2004", "f_pk");
const proof = wanted("TENDON_STRESS_LIMIT_EN1992_2004", "f_p0.1k");
const afterAll = wanted("ANCHORAGE_LENGTH_EN1992_2004", "σ_pm∞");
const atJack = wanted("FRICTION_STRESS", "σ_p0");
const afterRelease = wanted("TRANSMISSION_LENGTH_EN1992_2004", "σ_pm0");
const topFlange = wanted("I_SECTION", "b_top");
const composite = wanted("TOPPING_STRESS", "I'");
const meanForce = wanted("CHARACTERISTIC_PRESTRESS_EN1992_2004", "P_m,t");
const upperFactor = wanted("TENSION_UTILISATION", "r_sup");
const selfWeight = wanted("ELASTIC_LOSS_SEQUENCE", "M_g");

describe("what the words beside a cell say that an argument is not", () => {
  it.each<readonly [string, string, Quantity]>([
    ["Cube strength at 28 days", "", cylinder],
    ["Concrete strength", "f_cu", cylinder],
    ["Mean strength of concrete", "f_cm", cylinder],
    ["Strength at transfer", "", cylinder],
    ["Design compressive strength", "f_cd", cylinder],
    ["Characteristic cylinder strength", "f_ck", cube],
    ["Modulus of concrete at transfer", "", modulus28],
    ["Modulus of concrete at 28 days", "E_c", modulusAtTransfer],
    ["Modulus, 28 d", "", modulusAtStressing],
    ["Tangent modulus of concrete", "", modulus28],
    ["Modulus of concrete", "E_cm", tendonModulus],
    ["Modulus of the strand", "E_p", modulus28],
    ["0.1 % proof stress", "", tensile],
    ["Yield stress of the strand", "", tensile],
    ["", "f_p0.1k", tensile],
    ["Tensile strength of the prestressing steel", "f_pk", proof],
    ["Ultimate strength", "", proof],
    ["Initial prestress", "", afterAll],
    ["Stress at the jack", "", afterAll],
    ["Effective prestress", "", atJack],
    ["Stress after losses", "", atJack],
    ["Final stress in the tendon", "", afterRelease],
    ["Jacking stress", "", afterRelease],
    ["Width of bottom flange", "", topFlange],
    ["Second moment of area, gross section", "I_g", composite],
    ["Characteristic prestressing force", "", meanForce],
    ["Live load moment", "", selfWeight],
  ])("%s %s", (description, symbol, quantity) => expect(saysOtherwise({ description, symbol }, quantity)).toBe(true));

  it.each<readonly [string, string, Quantity]>([
    ["Characteristic cylinder strength at 28 days", "f_ck", cylinder],
    ["Concrete strength", "fck", cylinder],
    ["Cylinder strength (cube strength 50)", "f_ck", cylinder],
    ["Concrete class C40/50", "", cylinder],
    ["Characteristic cube strength", "f_ck", cube],
    ["Grade of concrete", "fck", cube],
    ["Modulus of concrete", "E_cm", modulusAtStressing],
    ["Modulus of elasticity of concrete at transfer", "E_ci", modulusAtTransfer],
    ["Elastic modulus", "E_c", modulus28],
    ["Modulus of the prestressing steel", "E_p", tendonModulus],
    ["Modulus of elasticity of tendons in concrete", "E_s", tendonModulus],
    ["Characteristic tensile strength", "f_pk", tensile],
    ["Ultimate tensile strength of strand", "f_pu", tensile],
    ["Proof stress", "f_p0.1k", proof],
    ["Prestress after all losses", "", afterAll],
    ["Final prestress", "", afterAll],
    ["Stress at the jack", "", atJack],
    ["Initial stress in the tendon", "", atJack],
    ["Stress in tendons after transfer", "", afterRelease],
    ["Initial prestress", "", afterRelease],
    ["Top flange width", "", topFlange],
    ["Flange width", "b", topFlange],
    ["Composite second moment of area (gross)", "", composite],
    ["Mean force in the tendon", "", meanForce],
    ["Prestressing force", "P", meanForce],
    ["Factor on the mean value", "", upperFactor],
    ["Moment from self weight", "", selfWeight],
    ["Dead load moment", "M_g", selfWeight],
  ])("nothing: %s %s", (description, symbol, quantity) =>
    expect(saysOtherwise({ description, symbol }, quantity)).toBe(false),
  );
});
