import { namespace } from "../../../functions/index.ts";
import {
  functionsIn,
  ourFunction,
  piecesOf,
  withoutPrefix,
  parseFormula,
  partsOf,
  type Piece,
} from "../../cells/index.ts";

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
const several = new Set(
  (
    "BYCOL BYROW CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER GROUPBY HSTACK LAMBDA LET MAKEARRAY MAP PIVOTBY " +
    "RANDARRAY REDUCE SCAN SEQUENCE SORT SORTBY TAKE TEXTSPLIT TOCOL TOROW UNIQUE VSTACK WRAPCOLS " +
    "WRAPROWS"
  ).split(" "),
);
/** Two of them have one more prefix. */
const doublyPrefixed = new Set(["FILTER", "SORT"]);
const parameter = "_xlpm.";

/** As many formulas as a few configurations of sheets have; sheets of one configuration have the same. */
const mostKept = 60_000;

/** The same for the same formula, read once. */
function readOnce<T>(read: (formula: string) => T): (formula: string) => T {
  const kept = new Map<string, T>();
  return (formula) => {
    if (kept.has(formula)) return kept.get(formula)!;
    const result = read(formula);
    if (kept.size >= mostKept) kept.clear();
    kept.set(formula, result);
    return result;
  };
}

/** The first function of a formula that fills several cells or binds names. */
export const fillsOrBinds = readOnce((formula): string | undefined =>
  functionsIn(formula)
    .map((name) => name.toUpperCase())
    .find((name) => several.has(name)),
);

function stored(name: string): string {
  const own = name.startsWith(`${namespace}.`) ? undefined : ourFunction(name);
  if (name.startsWith(`${namespace}.`)) return ours + name.replaceAll(".", "_");
  if (own !== undefined) return `${ours}${namespace}_${own}`;
  const known = name.toUpperCase();
  if (doublyPrefixed.has(known)) return `${later}_xlws.${known}`;
  return younger.has(known) || several.has(known) ? later + known : name;
}

/** The names that LET and LAMBDA bind in a formula, in small letters. */
function boundNames(formula: string): ReadonlySet<string> {
  const binding = functionsIn(formula).some((name) => /^(LET|LAMBDA)$/i.test(name));
  if (!binding) return new Set();
  const bound = [...partsOf(parseFormula(formula))].flatMap((part) => {
    if (part.type === "LetExpression") return part.declarations.map(({ id }) => id.name);
    return part.type === "LambdaExpression" ? part.params.map(({ name }) => name) : [];
  });
  return new Set(bound.map((name) => name.toLowerCase()));
}

/** A formula (with its leading `=`) as a file keeps it: without `=`, functions under their stored names. */
export const storedFormula = readOnce((formula): string => {
  const bound = boundNames(formula);
  return piecesOf(withoutPrefix(formula))
    .map(({ kind, text }) => {
      if (kind === "function") return stored(text);
      return kind === "name" && bound.has(text.toLowerCase()) ? parameter + text : text;
    })
    .join("");
});

/** What a name stands for, as a file keeps it. */
export function storedExpression(reference: string): string {
  return storedFormula(`=${reference}`);
}

const marked = new RegExp(`^${ours}${namespace}_(.*)$`, "i");
/** Where several add-ins were loaded, programs have put the number of one before ours. */
const numbered = new RegExp(`\\[\\d+\\]!(?=${ours}${namespace}_)`, "gi");

function typed(name: string): string {
  const own = marked.exec(name)?.[1];
  // Some programs write the function in small letters.
  if (own !== undefined) return `${namespace}.${own.toUpperCase()}`;
  return name.replace(/^(_xlfn\.|_xlws\.)+/i, "");
}

function isConstant(pieces: readonly Piece[], i: number): boolean {
  const [one, open, close] = [pieces[i], pieces[i + 1], pieces[i + 2]];
  return one?.kind === "function" && /^(TRUE|FALSE)$/i.test(one.text) && open?.text === "(" && close?.text === ")";
}

/** The formula as it is typed, with `=`. */
export function typedFormula(text: string): string {
  const pieces = piecesOf(text.replace(numbered, ""));
  return `=${pieces
    .map(({ kind, text: written }, i) => {
      // Some programs write the constants TRUE and FALSE as functions.
      if (isConstant(pieces, i)) return written.toUpperCase();
      if (isConstant(pieces, i - 1) || isConstant(pieces, i - 2)) return "";
      if (kind === "function") return typed(written);
      return kind === "name" && written.startsWith(parameter) ? written.slice(parameter.length) : written;
    })
    .join("")}`;
}
