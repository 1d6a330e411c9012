/**
 * Confusions that no range can tell from an everyday value. Each with its reason; what is listed and no longer slips
 * through is a failure too.
 */
export interface Exception {
  /** Key of the quantity, and its everyday range where one use of it is meant. */
  readonly quantity: string;
  readonly typical?: readonly [number, number];
  readonly typedIn: string;
  readonly because: string;
}

const anyAge =
  "functions are asked for any age from a day to a century; the inputs of the sheets are ages of their own with ranges narrow enough";

const anyTime =
  "relaxation is asked for from the first hour to a century; the times on the sheets are inputs of their own, with narrow ranges";
const searchEnd =
  "an end of the search for a force, of which only the order of magnitude matters: no stress is computed with it";

const strainsFromNothing =
  "strains along a member begin at 0 where the prestress builds up, so no smallest size tells; sheets compute them from stresses";

export const exceptions: readonly Exception[] = [
  { quantity: "meanStrain", typedIn: "per cent", because: strainsFromNothing },
  { quantity: "meanStrain", typedIn: "per mille", because: strainsFromNothing },
  {
    quantity: "steelFirstMoment",
    typedIn: "m³",
    because:
      "0 without bars and of either sign; a value in m³ is as good as 0, and the curvature it gives is 0 for all to see",
  },
  { quantity: "concreteAge", typedIn: "hours", because: anyAge },
  { quantity: "concreteAge", typedIn: "years", because: anyAge },
  { quantity: "ageAtLoading", typedIn: "hours", because: anyAge },
  { quantity: "ageAtLoading", typedIn: "years", because: anyAge },
  { quantity: "strengthAge", typedIn: "hours", because: anyAge },
  { quantity: "strengthAge", typedIn: "years", because: anyAge },
  { quantity: "timeAfterTensioning", typedIn: "days", because: anyTime },
  { quantity: "timeAfterTensioning", typedIn: "years", because: anyTime },
  {
    quantity: "temperatureAdjustedAge",
    typedIn: "hours",
    because:
      "adjusted ages run from half a day in heat to months in the cold; sheets take it from TEMPERATURE_ADJUSTED_AGE",
  },
  { quantity: "temperatureAdjustedAge", typical: [0, 3650], typedIn: "years", because: anyAge },
  {
    quantity: "duration",
    typedIn: "hours",
    because:
      "a span of ordinary temperature may last for days; spans of heat longer than two days are warned of by the function",
  },
  { quantity: "regionForce", typical: [1, 20000], typedIn: "N", because: searchEnd },
  { quantity: "regionForce", typical: [100, 1e6], typedIn: "N", because: searchEnd },
  {
    quantity: "shear",
    typedIn: "N",
    because: "the shear of every span passes through 0, so that small values are as everyday as large ones",
  },
  {
    quantity: "gaugePressure",
    typedIn: "MPa",
    because: "70 bar is everyday at the first stage and 70 MPa at the last; the gauge itself says its unit",
  },
  {
    quantity: "elongationDeviation",
    typedIn: "parts of 1, not per cent",
    because:
      "a deviation of 0.1 % is as welcome as one of 10 % is usual; it is the result of ELONGATION_DEVIATION, which gives per cent",
  },
];
