import { namespace } from "../../../functions/index.ts";
import { withFunctions, withoutPrefix } from "../../cells/index.ts";

/** How files mark a function of an add-in; the program maps it to the add-in once that is loaded. */
const ours = "_xldudf_";
const later = "_xlfn.";

/** Functions younger than the file format: files write them with a prefix, without which they stay #NAME?. */
const younger = new Set(
  (
    "ACOT ACOTH AGGREGATE ARABIC BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND " +
    "BITLSHIFT BITOR BITRSHIFT BITXOR CEILING.MATH CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT " +
    "CHISQ.TEST COMBINA CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH " +
    "DAYS DECIMAL ERF.PRECISE ERFC.PRECISE EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FLOOR.MATH " +
    "FORMULATEXT GAMMA GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS HYPGEOM.DIST IFNA IFS IMCOSH IMCOT " +
    "IMCSC IMCSCH IMSEC IMSECH IMSINH IMTAN ISFORMULA ISOWEEKNUM LOGNORM.DIST LOGNORM.INV MAXIFS MINIFS " +
    "MODE.MULT MODE.SNGL MUNIT NEGBINOM.DIST NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NUMBERVALUE " +
    "PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTRANK.EXC PERCENTRANK.INC PERMUTATIONA PHI " +
    "POISSON.DIST QUARTILE.EXC QUARTILE.INC RANK.AVG RANK.EQ RRI SEC SECH SHEET SHEETS SKEW.P STDEV.P " +
    "STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TEXTJOIN UNICHAR UNICODE VAR.P VAR.S " +
    "WEIBULL.DIST XLOOKUP XMATCH XOR Z.TEST"
  ).split(" "),
);

/** Functions that fill more than their own cell or bind names of their own: a plain cell of a file cannot hold them. */
const unstorable = new Set(
  (
    "BYCOL BYROW CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER GROUPBY HSTACK LAMBDA LET MAKEARRAY MAP PIVOTBY " +
    "RANDARRAY REDUCE SCAN SEQUENCE SORT SORTBY TAKE TEXTSPLIT TOCOL TOROW UNIQUE VSTACK WRAPCOLS " +
    "WRAPROWS"
  ).split(" "),
);

function stored(name: string): string {
  if (name.startsWith(`${namespace}.`)) return ours + name.replaceAll(".", "_");
  const known = name.toUpperCase();
  if (unstorable.has(known))
    throw new Error(
      `the function ${known} fills several cells or binds names; a check sheet's file holds formulas of one cell`,
    );
  return younger.has(known) ? later + known : name;
}

/** A formula (with its leading `=`) as a file keeps it: without `=`, functions under their stored names. */
export function storedFormula(formula: string): string {
  return withFunctions(withoutPrefix(formula), stored);
}

function typed(name: string): string {
  const prefix = `${ours}${namespace}_`;
  if (name.startsWith(prefix)) return `${namespace}.${name.slice(prefix.length)}`;
  return name.startsWith(later) ? name.slice(later.length) : name;
}

/** The formula as it is typed, with `=`. */
export function typedFormula(text: string): string {
  return `=${withFunctions(text, typed)}`;
}
