/** Bibliography: every work a formula, a table or a check refers to, once. */
export const sources = {
  mechanics: "Statics and strength of materials: equilibrium, compatibility and elasticity.",
  "EN1992-1-1:2004":
    "EN 1992-1-1:2004, Eurocode 2: Design of concrete structures – Part 1-1: General rules and rules for " +
    "buildings, with corrigenda AC:2008 and AC:2010. Recommended values; the National Annex in force decides.",
  "CE:2021":
    "Código Estructural, Anejo 19 (Spain, Real Decreto 470/2021): national text that follows EN 1992-1-1 clause " +
    "by clause.",
  "EN1992-1-1:2004-FR": "EN 1992-1-1:2004, a French transcription (contains transcription errors; never used alone).",
  "IS1343:1980":
    "IS 1343:1980, Code of practice for prestressed concrete. Of its text only part of Appendix B was read; the " +
    "rest is second-hand or recalled, as marked.",
  "IS1343:2012":
    "IS 1343:2012, Code of practice for prestressed concrete. Its clauses were not read; what stands here is " +
    "recalled, as marked.",
  "IS1343-NOTES":
    "Indian teaching pages and examination solutions that quote IS 1343:1980 and IS 456:2000: questions on " +
    "creep, shrinkage and relaxation, and a slide set on relaxation with Table 4.",
  "ACI209R-92":
    "ACI 209R-92, Prediction of creep, shrinkage, and temperature effects in concrete structures. Not read itself.",
  "ACI209.2R-08":
    "ACI 209.2R-08, Guide for modeling and calculating shrinkage and creep in hardened concrete: of it pages " +
    "209.2R-31, -32, -37, -38 and -40 (Appendix C, numeric examples with the equations of Appendix A).",
  "CEB-FIP:1990": "CEB-FIP Model Code 1990 (Comité Euro-International du Béton, 1993). Not read itself.",
  "CEB-FIP:1999":
    "CEB-FIP Model Code 1990 as updated in 1999 (fib, Structural Concrete, 1999), which ACI 209.2R-08 calls CEB " +
    "MC90-99. Not read itself.",
  "ZIA:1979":
    "Zia, Preston, Scott, Workman: Estimating prestress losses, Concrete International, June 1979, taken over " +
    "into ACI 423.10R. Only its first page was legible.",
  "PCI:1975":
    "PCI Committee on Prestress Losses: Recommendations for estimating prestress losses, PCI Journal, " +
    "July–August 1975. Not read itself.",
  "EN1992-2:2005":
    "EN 1992-2:2005, Eurocode 2 – Part 2: Concrete bridges, Annex J. Not read itself; its rules as used in lecture " +
    "slides (MAE 1183, 2013).",
  "IRC112:2011":
    "IRC:112-2011, Code of practice for concrete road bridges. Not read itself; its Table 13.1 as printed in a " +
    "design-office sheet.",
  "JTG3362:2018":
    "JTG 3362-2018, Specifications for design of highway reinforced concrete and prestressed concrete bridges and " +
    "culverts (China), clause 8.2 read in a public copy.",
  "MARSHALL-MATTOCK:1962":
    "Marshall, Mattock: Control of horizontal cracking in the ends of pretensioned prestressed concrete girders, " +
    "PCI Journal, 1962. Read as quoted in a thesis (Univ. of Texas at Austin, 2009).",
  "PRODUCT-PAGES":
    "Pages of makers of strand, wire and bar that reproduce the tables of product standards (prEN 10138-3 and " +
    "-4, BS 5896:2012, IS 14268:1995, ASTM A416). The standards themselves were not read.",
  "NURSE-SAUL":
    "Maturity of concrete as temperature above a datum times time (Nurse 1949, Saul 1951), as taught; not read itself.",
  practice: "Common practice; no source.",
} as const;

type SourceKey = keyof typeof sources;

/**
 * How a rule was established.
 * `seen`: its text was read (a national transposition counts and is named). `second-hand`: read in another work.
 * `memory-…`: recalled, with the confidence. `derived`: follows from mechanics in the declaration itself.
 */
export type Basis = "seen" | "second-hand" | "memory-high" | "memory-medium" | "memory-low" | "derived" | "practice";

export interface Source {
  readonly key: SourceKey;
  readonly clause?: string;
  readonly basis: Basis;
  /** The text that was actually read, where it is not the standard's own print. */
  readonly readIn?: SourceKey;
}

/** The basis in words for the person who checks. */
export const basisText: Readonly<Record<Basis, string>> = {
  seen: "text read",
  "second-hand": "read in another work",
  "memory-high": "from memory, high confidence",
  "memory-medium": "from memory, medium confidence",
  "memory-low": "from memory, low confidence",
  derived: "derived from mechanics",
  practice: "common practice, no source",
};

/** The advice that belongs beside every clause that is not pure mechanics. */
export const ownCopyAdvice = "Check against your own copy of the standard and the National Annex in force.";
