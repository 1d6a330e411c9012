import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulas, InputError, run, trace, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const find = (id: string) => formulas.find((f) => f.id === id)!;
const kern = (id: string, ...args: Argument[]): number => run(find(id), args);
const step = (id: string, name: string, ...args: Argument[]): number =>
  trace(find(id), args).steps.find((s) => s.name === name)!.shown;

const creepModels = ["CREEP_COEFFICIENT_CEBFIP_1990", "CREEP_COEFFICIENT_CEBFIP_1999"] as const;

describe("creep models", () => {
  it("start at 0, grow with time, and fall with humidity, size, strength and age at loading", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...creepModels),
        between(25, 80),
        between(40, 99),
        between(60, 1200),
        between(1, 100),
        between(0, 20000),
        between(0, 1),
        fc.constantFrom("SL", "N_R", "RS"),
        (id, f_cm, RH, h, t_0, dt, part, cement) => {
          expect(kern(id, h, f_cm, cement, RH, t_0, t_0)).toBe(0);
          const here = kern(id, h, f_cm, cement, RH, t_0, t_0 + dt);
          const no = here + 1e-9;
          expect(kern(id, h, f_cm, cement, RH, t_0, t_0 + dt * (1 + part))).toBeGreaterThanOrEqual(here - 1e-12);
          expect(kern(id, h, f_cm + (80 - f_cm) * part, cement, RH, t_0, t_0 + dt)).toBeLessThanOrEqual(
            no + 0.03 * here,
          );
          expect(kern(id, h, f_cm, cement, RH + (99 - RH) * part, t_0, t_0 + dt)).toBeLessThanOrEqual(no);
          expect(kern(id, h * (1 + part), f_cm, cement, RH, t_0, t_0 + dt)).toBeLessThanOrEqual(no);
          expect(kern(id, h, f_cm, cement, RH, t_0 * (1 + part), t_0 * (1 + part) + dt)).toBeLessThanOrEqual(no);
        },
      ),
    );
  });
  it("agree between the two editions of the model code at 35 MPa but for the rounding of their size factors", () => {
    fc.assert(
      fc.property(between(40, 99), between(60, 1200), between(1, 100), between(1, 20000), (RH, h, t_0, dt) => {
        const [a, b] = creepModels.map((id) => kern(id, h, 35, "N_R", RH, t_0, t_0 + dt));
        // 0.46·(h/100)^(1/3) against 0.1·h^(1/3) = 0.4642·(h/100)^(1/3).
        expect(Math.abs(a! / b! - 1)).toBeLessThan(0.4642 / 0.46 - 1);
      }),
    );
  });
  it("agree with EN 1992-1-1 above 35 MPa, which took the update over, but for rounding of 16.8", () => {
    fc.assert(
      fc.property(
        between(35.001, 80),
        between(40, 99),
        between(60, 1200),
        between(1, 100),
        between(1, 20000),
        (f_cm, RH, h, t_0, dt) => {
          const ratio =
            kern("CREEP_COEFFICIENT_EN1992_2004", h, f_cm, "N", RH, t_0, t_0 + dt) /
            kern("CREEP_COEFFICIENT_CEBFIP_1999", h, f_cm, "N_R", RH, t_0, t_0 + dt);
          expect(ratio).toBeCloseTo(16.8 / (5.3 * Math.sqrt(10)), 10);
        },
      ),
    );
  });
  it("by ACI 209R-92 start at 0, approach the final value, and fall with humidity, size and age at loading", () => {
    const id = "CREEP_COEFFICIENT_ACI209R_1992";
    fc.assert(
      fc.property(
        between(7, 300),
        between(0, 20000),
        fc.constantFrom("MOIST", "STEAM"),
        between(40, 99),
        between(20, 300),
        between(0, 1),
        (t_0, dt, curing, RH, VS, part) => {
          expect(kern(id, VS, curing, RH, t_0, t_0)).toBe(0);
          const here = kern(id, VS, curing, RH, t_0, t_0 + dt);
          expect(here).toBeLessThan(step(id, "phi_u", VS, curing, RH, t_0, t_0 + dt));
          expect(kern(id, VS, curing, RH, t_0, t_0 + dt * (1 + part))).toBeGreaterThanOrEqual(here);
          expect(kern(id, VS, curing, RH + (100 - RH) * part, t_0, t_0 + dt)).toBeLessThanOrEqual(here);
          expect(kern(id, VS * (1 + part / 4), curing, RH, t_0, t_0 + dt)).toBeLessThanOrEqual(here);
          expect(kern(id, VS, curing, RH, t_0 * (1 + part), t_0 * (1 + part) + dt)).toBeLessThanOrEqual(here + 1e-12);
        },
      ),
    );
    // The last age a function takes: t^0.6/(10 + t^0.6) of the final value.
    const last = (1e7 - 7) ** 0.6;
    expect(kern(id, 40, "MOIST", 50, 7, 1e7)).toBeCloseTo(
      (step(id, "phi_u", 40, "MOIST", 50, 7, 8) * last) / (10 + last),
      10,
    );
  });
  it("by ACI 209R-92 take the mix factors of standard concrete as 1 within their own rounding", () => {
    for (const [id, args, steps] of [
      [
        "CREEP_COEFFICIENT_ACI209R_1992",
        [38, "MOIST", 40, 7, 365],
        ["gamma_t0", "gamma_RH", "gamma_VS", "gamma_s", "gamma_psi", "gamma_a"],
      ],
      [
        "SHRINKAGE_STRAIN_ACI209R_1992",
        [38, "MOIST", 40, 7, 365],
        ["gamma_tc", "gamma_RH", "gamma_VS", "gamma_s", "gamma_psi", "gamma_c", "gamma_a"],
      ],
    ] as const)
      for (const name of steps) expect(Math.abs(step(id, name, ...args) - 1), `${id} ${name}`).toBeLessThan(0.01);
  });
  it("by ACI 209R-92 have the factors of age that its table rounds, for both ways of curing (table from memory)", () => {
    const table = [
      ["MOIST", [0.95, 0.87, 0.83, 0.77, 0.74]],
      ["STEAM", [0.9, 0.85, 0.82, 0.76, 0.74]],
    ] as const;
    for (const [curing, factors] of table)
      [10, 20, 30, 60, 90].forEach((days, i) => {
        expect(
          Math.abs(step("CREEP_COEFFICIENT_ACI209R_1992", "gamma_t0", 50, curing, 50, days, 365) - factors[i]!),
          `${curing} ${days}`,
        ).toBeLessThan(0.011);
      });
  });
  it("refuse what ACI 209R-92 does not cover", () => {
    const creep = (from: number, t: number, curing: string, RH: number, VS: number) => () =>
      kern("CREEP_COEFFICIENT_ACI209R_1992", VS, curing, RH, from, t);
    const shrinkage = (from: number, t: number, curing: string, RH: number, VS: number) => () =>
      kern("SHRINKAGE_STRAIN_ACI209R_1992", VS, curing, RH, from, t);
    for (const refused of [
      creep(3, 100, "MOIST", 50, 50),
      creep(0.5, 100, "STEAM", 50, 50),
      creep(7, 100, "MOIST", 30, 50),
      creep(7, 6, "MOIST", 50, 50),
      shrinkage(7, 100, "STEAM", 50, 50),
      shrinkage(100, 200, "MOIST", 50, 50),
      shrinkage(7, 100, "MOIST", 39, 50),
    ])
      expect(refused).toThrow(InputError);
    expect(creep(3, 100, "STEAM", 50, 50)()).toBeGreaterThan(0);
  });
});

describe("shrinkage models", () => {
  it("start at 0, grow with time and fall with humidity and size", () => {
    fc.assert(
      fc.property(between(40, 98), between(60, 600), between(0, 20000), between(0, 1), (RH, h, dt, part) => {
        const models = [
          (rh: number, size: number, t: number) => kern("SHRINKAGE_STRAIN_CEBFIP_1990", size, 38, "N_R", rh, 7, 7 + t),
          (rh: number, size: number, t: number) =>
            kern("SHRINKAGE_STRAIN_ACI209R_1992", size / 2, "MOIST", rh, 7, 7 + t),
        ];
        for (const model of models) {
          expect(model(RH, h, 0)).toBe(0);
          const here = model(RH, h, dt);
          expect(model(RH, h, dt * (1 + part))).toBeGreaterThanOrEqual(here);
          expect(model(RH, h * (1 + part / 4), dt)).toBeLessThanOrEqual(here);
          expect(here).toBeGreaterThanOrEqual(0);
        }
        // The report's two lines of humidity meet only nearly at 80 %.
        expect(models[0]!(RH + (98 - RH) * part, h, dt)).toBeLessThanOrEqual(models[0]!(RH, h, dt));
      }),
    );
    expect(kern("SHRINKAGE_STRAIN_CEBFIP_1990", 200, 38, "N_R", 99, 7, 1000)).toBeLessThan(0);
    expect(kern("SHRINKAGE_STRAIN_ACI209R_1992", 50, "MOIST", 50, 7, 42)).toBeCloseTo(
      step("SHRINKAGE_STRAIN_ACI209R_1992", "eps_u", 50, "MOIST", 50, 7, 42) / 2,
      15,
    );
    expect(kern("SHRINKAGE_STRAIN_ACI209R_1992", 50, "STEAM", 50, 3, 58)).toBeCloseTo(
      step("SHRINKAGE_STRAIN_ACI209R_1992", "eps_u", 50, "STEAM", 50, 3, 58) / 2,
      15,
    );
  });
  it("keep autogenous and drying shrinkage apart in the edition of 1999, and swell in water", () => {
    const id = "SHRINKAGE_STRAIN_CEBFIP_1999";
    fc.assert(
      fc.property(
        between(20, 90),
        between(40, 95),
        between(60, 600),
        between(1, 100),
        between(0, 20000),
        between(0, 1),
        fc.constantFrom("SL", "N_R", "RS"),
        (f_cm, RH, h, t_s, dt, part, cement) => {
          const at = (t: number, rh = RH, strength = f_cm): number => kern(id, h, strength, cement, rh, t_s, t);
          const own = (t: number): number => step(id, "eps_cas", h, f_cm, cement, RH, t_s, t);
          expect(at(t_s)).toBeCloseTo(own(t_s), 15);
          if (RH < 99 * Math.min(1, (35 / 90) ** 0.1)) {
            expect(at(t_s + dt * (1 + part))).toBeGreaterThanOrEqual(at(t_s + dt) - 1e-15);
            expect(at(t_s + dt)).toBeGreaterThanOrEqual(own(t_s + dt));
          }
          // Stronger concrete dries less and shrinks more by itself; its autogenous part never passes α_as.
          expect(step(id, "eps_cds0", h, f_cm + (90 - f_cm) * part, cement, RH, t_s, t_s + dt)).toBeLessThanOrEqual(
            step(id, "eps_cds0", h, f_cm, cement, RH, t_s, t_s + dt),
          );
          expect(step(id, "eps_cas0", h, f_cm + (90 - f_cm) * part, cement, RH, t_s, t_s + dt)).toBeGreaterThanOrEqual(
            step(id, "eps_cas0", h, f_cm, cement, RH, t_s, t_s + dt),
          );
        },
      ),
    );
    // EN 1992-1-1 Annex B.2 takes 0.85 of the notional drying shrinkage for the same humidity.
    fc.assert(
      fc.property(between(20, 90), between(40, 88), (f_cm, RH) => {
        const here =
          step(id, "eps_cds0", 200, f_cm, "N_R", RH, 7, 100) * step(id, "beta_RH", 200, f_cm, "N_R", RH, 7, 100);
        expect(kern("DRYING_SHRINKAGE_NOMINAL_EN1992_2004", f_cm, "N", RH) / here).toBeCloseTo(0.85, 10);
      }),
    );
    expect(kern(id, 200, 30, "N_R", 100, 7, 1000)).toBeLessThan(0);
    // At 60 MPa the strength term of the autogenous part is 0.5^2.5; its factors by cement are those that the Model
    // Code of 2010 kept (from memory).
    for (const [cement, factor] of [
      ["SL", 800],
      ["N_R", 700],
      ["RS", 600],
    ] as const)
      expect(step(id, "eps_cas0", 200, 60, cement, 70, 7, 100)).toBeCloseTo(factor * 1e-6 * 0.5 ** 2.5, 15);
    for (const f_cm of [25, 60])
      expect(
        kern("DRYING_SHRINKAGE_NOMINAL_EN1992_2004", f_cm, "S", 70) /
          (step(id, "eps_cds0", 200, f_cm, "SL", 70, 7, 100) * step(id, "beta_RH", 200, f_cm, "SL", 70, 7, 100)),
      ).toBeCloseTo(0.85, 10);
  });
  it("fit the report's table of moist curing within its rounding", () => {
    for (const [days, factor] of [
      [1, 1.2],
      [3, 1.1],
      [7, 1],
      [14, 0.93],
      [28, 0.86],
      [90, 0.75],
    ] as const)
      expect(
        Math.abs(step("SHRINKAGE_STRAIN_ACI209R_1992", "gamma_tc", 50, "MOIST", 50, days, 365) - factor),
        `${days} days`,
      ).toBeLessThan(0.011);
  });
});

describe("strength with age by ACI 209R-92", () => {
  it("is nearly the strength given at 28 days, rises, and ends at 1/b of it", () => {
    for (const [curing, cement, b] of [
      ["MOIST", "I", 0.85],
      ["MOIST", "III", 0.92],
      ["STEAM", "I", 0.95],
      ["STEAM", "III", 0.98],
    ] as const) {
      const at = (t: number): number => kern("CONCRETE_STRENGTH_AT_AGE_ACI209R_1992", 40, curing, cement, t) / 40;
      expect(Math.abs(at(28) - 1)).toBeLessThan(0.02);
      // a/t is all that is missing at the last age a function takes, with a of at most 4 days.
      expect(Math.abs(at(1e7) - 1 / b)).toBeLessThan(4 / (b * b * 1e7));
      fc.assert(
        fc.property(between(1, 1000), between(1, 3), (t, k) => {
          expect(at(t * k)).toBeGreaterThanOrEqual(at(t) - 1e-12);
        }),
      );
    }
  });
});

describe("relaxation by the logarithm of time", () => {
  const loss = (f_pi: number, f_py: number, D: number, t_2: number, t_1?: number): number =>
    kern("RELAXATION_LOSS_INTRINSIC", f_py, D, f_pi, t_2, t_1);
  it("adds up over parts of the time, grows with stress and time, and follows its divisor", () => {
    fc.assert(
      fc.property(
        between(0.56, 0.85),
        fc.constantFrom(45, 40, 10),
        // All in all no more than the 10^7 days that a time may last.
        between(1, 1000),
        between(1, 500),
        between(1, 400),
        (ratio, D, t_1, k, m) => {
          const whole = loss(ratio * 1675, 1675, D, t_1 * k * m, t_1);
          expect(
            loss(ratio * 1675, 1675, D, t_1 * k, t_1) + loss(ratio * 1675, 1675, D, t_1 * k * m, t_1 * k),
          ).toBeCloseTo(whole, 8);
          expect(loss(ratio * 1675, 1675, 45, t_1 * k, t_1) * 45).toBeCloseTo(
            loss(ratio * 1675, 1675, D, t_1 * k, t_1) * D,
            6,
          );
          expect(loss(ratio * 1.01 * 1675, 1675, D, t_1 * k, t_1)).toBeGreaterThanOrEqual(
            loss(ratio * 1675, 1675, D, t_1 * k, t_1),
          );
        },
      ),
    );
    expect(loss(0.7 * 1675, 1675, 45, 1)).toBe(0);
    expect(loss(0.55 * 1675, 1675, 10, 1e5)).toBeCloseTo(0, 9);
  });
  it("refuses stresses and times that it does not reach", () => {
    expect(() => loss(0.54 * 1675, 1675, 45, 100)).toThrow(/where the law begins/);
    expect(() => loss(1.01 * 1675, 1675, 45, 100)).toThrow(InputError);
    expect(() => loss(1200, 1675, 45, 0.5)).toThrow(InputError);
    expect(() => loss(1200, 1675, 45, 10, 20)).toThrow(InputError);
    expect(() => loss(1200, 1675, 30, 100)).toThrow(InputError);
  });
  it("stays after 1000 hours below what product standards allow, 2.5 % at 0.7 and 4.5 % at 0.8 of the strength for low relaxation", () => {
    for (const D of [45, 40])
      for (const [ratio, most] of [
        [0.7, 0.025],
        [0.8, 0.045],
      ] as const) {
        const relative = loss(ratio * 1860, 0.9 * 1860, D, 1000) / (ratio * 1860);
        expect(relative).toBeLessThan(most);
        expect(relative).toBeGreaterThan(most / 2);
      }
  });
  it("grows from the test of 1000 hours by a power of time", () => {
    for (const steel of ["NORMAL", "LOW"]) {
      expect(kern("RELAXATION_TIME_FACTOR_CEBFIP_1990", steel, 1000)).toBe(1);
      fc.assert(
        fc.property(between(1, 1e6), between(1, 100), (t, k) => {
          expect(
            kern("RELAXATION_TIME_FACTOR_CEBFIP_1990", steel, t * k) /
              kern("RELAXATION_TIME_FACTOR_CEBFIP_1990", steel, t),
          ).toBeCloseTo(kern("RELAXATION_TIME_FACTOR_CEBFIP_1990", steel, 1000 * k), 9);
        }),
      );
    }
  });
});

describe("the component method", () => {
  const steels = ["270_RELIEVED", "250_RELIEVED", "240_RELIEVED", "270_LOW", "250_LOW", "240_LOW", "BAR"];
  const relaxation = (steel: string, f_pi: number, f_pu: number, ES: number, CR: number, SH: number): number =>
    kern("RELAXATION_LOSS_COMPONENT", f_pu, steel, f_pi, ES, CR, SH);
  it("lets relaxation fall with the other losses, grow with stress, and never below 0", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...steels),
        between(0.601, 0.749),
        between(0, 1),
        between(0, 200),
        between(0, 200),
        between(0, 200),
        (steel, ratio, part, ES, CR, SH) => {
          const here = relaxation(steel, ratio * 1860, 1860, ES, CR, SH);
          expect(here).toBeGreaterThanOrEqual(0);
          expect(relaxation(steel, (ratio + (0.749 - ratio) * part) * 1860, 1860, ES, CR, SH)).toBeGreaterThanOrEqual(
            here,
          );
          expect(relaxation(steel, ratio * 1860, 1860, ES + SH, CR, 0)).toBeCloseTo(here, 9);
          expect(relaxation(steel, ratio * 1860, 1860, ES, CR + 50 * part, SH)).toBeLessThanOrEqual(here);
        },
      ),
    );
  });
  it("gives the whole basic relaxation where C is 1 and nothing else is lost, and less for low relaxation", () => {
    expect(relaxation("270_LOW", 0.75 * 1860, 1860, 0, 0, 0)).toBeCloseTo(34.47, 2);
    expect(relaxation("270_RELIEVED", 0.7 * 1860, 1860, 0, 0, 0)).toBeCloseTo(137.9, 1);
    for (const strength of ["270", "250", "240"])
      expect(relaxation(`${strength}_LOW`, 0.7 * 1860, 1860, 80, 60, 60)).toBeLessThan(
        relaxation(`${strength}_RELIEVED`, 0.7 * 1860, 1860, 80, 60, 60),
      );
  });
  it("lies within 2 % of the equations that handbooks give for C beside the table (both from memory)", () => {
    const byTable = (steel: string, ratio: number): number =>
      step("RELAXATION_LOSS_COMPONENT", "C", 1860, steel, ratio * 1860, 0, 0, 0);
    fc.assert(
      fc.property(between(0.6001, 0.7999), (r) => {
        expect(Math.abs(byTable("270_LOW", r) / ((r / 0.21) * (r / 0.9 - 0.55)) - 1)).toBeLessThan(0.02);
        expect(byTable("BAR", r)).toBe(byTable("270_LOW", r));
        if (r < 0.75)
          expect(
            Math.abs(byTable("270_RELIEVED", r) / (r < 0.7 ? (r / 0.19) * (r / 0.85 - 0.55) : 1 + 9 * (r - 0.7)) - 1),
          ).toBeLessThan(0.02);
      }),
      { examples: [[0.6001], [0.7], [0.7001], [0.7499], [0.7999]] },
    );
  });
  it("takes the steels in the order of their strength and kind", () => {
    const basic = (steel: string): number => step("RELAXATION_LOSS_COMPONENT", "K", 1860, steel, 1300, 0, 0, 0);
    const share = (steel: string): number => step("RELAXATION_LOSS_COMPONENT", "J", 1860, steel, 1300, 0, 0, 0);
    for (const of of [basic, share])
      for (const kind of ["RELIEVED", "LOW"]) {
        expect(of(`270_${kind}`)).toBeGreaterThan(of(`250_${kind}`));
        expect(of(`250_${kind}`)).toBeGreaterThan(of(`240_${kind}`));
      }
    // K in psi over J: the same loss of the rest takes all relaxation away, about 125 to 135 ksi, whatever the steel.
    for (const steel of steels)
      expect(Math.abs(basic(steel) / share(steel) / 6.894757 - 127.5), steel).toBeLessThan(8.5);
  });
  it("refuses ratios that the table of C does not reach", () => {
    expect(() => relaxation("270_LOW", 0.59 * 1860, 1860, 0, 0, 0)).toThrow(/table of C/);
    expect(() => relaxation("270_LOW", 0.81 * 1860, 1860, 0, 0, 0)).toThrow(/table of C/);
    expect(() => relaxation("270_RELIEVED", 0.76 * 1860, 1860, 0, 0, 0)).toThrow(/table of C/);
    expect(relaxation("270_LOW", 0.79 * 1860, 1860, 0, 0, 0)).toBeGreaterThan(0);
  });
  it("agrees with the general creep loss at a coefficient of 2 or 1.6", () => {
    fc.assert(
      fc.property(between(5, 25), between(0, 5), (f_cir, f_cds) => {
        expect(kern("CREEP_LOSS_COMPONENT", 195, 35, f_cir, f_cds, "PRE")).toBeCloseTo(
          kern("CREEP_LOSS_IS1343_1980", 195, 35, 2, f_cir - f_cds),
          9,
        );
        expect(kern("CREEP_LOSS_COMPONENT", 195, 35, f_cir, f_cds, "POST", "SAND_LIGHT")).toBeCloseTo(
          0.8 * kern("CREEP_LOSS_IS1343_1980", 195, 35, 1.6, f_cir - f_cds),
          9,
        );
      }),
    );
  });
  it("lets shrinkage loss fall with humidity and size, to nothing at 100 %", () => {
    fc.assert(
      fc.property(between(20, 100), between(20, 300), between(0, 1), (RH, VS, part) => {
        const here = kern("SHRINKAGE_LOSS_COMPONENT", VS, 195, RH);
        expect(here).toBeGreaterThanOrEqual(0);
        expect(kern("SHRINKAGE_LOSS_COMPONENT", VS * (1 + part / 4), 195, RH)).toBeLessThanOrEqual(here);
        expect(kern("SHRINKAGE_LOSS_COMPONENT", VS, 195, RH, part)).toBeCloseTo(part * here, 9);
      }),
    );
    expect(kern("SHRINKAGE_LOSS_COMPONENT", 50, 195, 100)).toBe(0);
    // The source's own second form, 550·10^-6·(1 − 0.06 V/S)·(1.5 − 0.015 RH), within its rounding.
    expect(
      kern("SHRINKAGE_LOSS_COMPONENT", 76.2, 200, 70) / 200e3 / (0.00055 * (1 - 0.18) * (1.5 - 0.015 * 70)),
    ).toBeCloseTo(1, 1.9);
    expect(kern("SHRINKAGE_FACTOR_COMPONENT", 7)).toBe(0.77);
    expect(() => kern("SHRINKAGE_FACTOR_COMPONENT", 61)).toThrow(InputError);
  });
});
