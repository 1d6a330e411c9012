/**
 * What the trade calls by several names; who types one of them means the functions that use another. A term of several
 * words counts where all of them stand.
 */
export const synonyms: readonly (readonly string[])[] = [
  ["draw in", "wedge set", "wedge slip", "pull in", "seating"],
  ["lock off", "anchoring", "anchored"],
  ["moment resistance", "moment capacity", "flexural strength", "ultimate moment", "bending strength"],
  ["shear resistance", "shear capacity", "shear strength"],
  ["time dependent loss", "long term loss"],
  ["jack", "jacking", "stressing", "tensioning"],
  ["elastic loss", "elastic shortening"],
  ["transmission length", "transfer length"],
  ["elongation", "extension"],
  ["eccentricity", "cable profile", "drape"],
  ["hold down", "deflector", "harping", "draped"],
  ["links", "stirrups"],
  ["tendon", "cable", "strand", "prestressing steel"],
  ["prestress", "prestressing", "prestressed"],
  ["topping", "screed", "in situ slab"],
  ["compression limit", "tension limit", "allowable stress", "permissible stress"],
  ["bursting", "end block", "anchorage zone"],
];
