import { choice } from "../../parameters.ts";

export const method = choice({
  key: "prestressMethod",
  symbol: "method",
  text: "way of prestressing",
  values: [
    { value: "PRE", text: "pre-tensioned" },
    { value: "POST", text: "post-tensioned" },
  ],
});

/** Surroundings of IS 1343:1980 5.2.4. */
export const surroundings = choice({
  key: "surroundings",
  symbol: "surroundings",
  text: "surroundings",
  default: "NORMAL",
  values: [
    { value: "NORMAL", text: "normal" },
    { value: "DRY", text: "dry: shrinkage increased by half, not above 0.0003" },
  ],
});

/** Zones of the compression diagram for service, IS 1343:1980 22.8.1. */
export const stressZone = choice({
  key: "stressZone",
  symbol: "zone",
  text: "zone for the compression in service",
  values: [
    { value: "I", text: "stress not likely to increase in service" },
    { value: "II", text: "stress likely to increase in service" },
  ],
});

/** Members by the tension they may see, IS 1343:1980 19.3.2 and 22.7. */
export const memberType = choice({
  key: "memberType",
  symbol: "type",
  text: "type of member by the tension allowed",
  values: [
    { value: 1, text: "no tension" },
    { value: 2, text: "tension but no visible cracks" },
    { value: 3, text: "cracks of limited width, judged by hypothetical tension" },
  ],
});

export const surfaceOfDuct = choice({
  key: "ductSurface",
  symbol: "surface",
  text: "tendon and duct surface",
  values: [
    { value: "CONCRETE", text: "steel on smooth concrete" },
    { value: "STEEL", text: "steel on steel fixed to the duct" },
    { value: "LEAD", text: "steel on lead" },
  ],
});

export const transmittedTendon = choice({
  key: "transmittedTendon",
  symbol: "tendon",
  text: "kind of tendon for transmission",
  values: [
    { value: "WIRE", text: "plain or indented wire" },
    { value: "CRIMPED_WIRE", text: "crimped wire" },
    { value: "STRAND", text: "strand" },
  ],
});

export const temporaryTension = choice({
  key: "temporaryTension",
  symbol: "temporary",
  text: "whether part of the tension is temporary",
  default: "NO",
  values: [
    { value: "NO", text: "no" },
    { value: "YES", text: "yes, and the permanent stress stays compressive" },
  ],
});

/** Rows of the table of hypothetical tension. */
export const tensionedTendons = choice({
  key: "tensionedTendons",
  symbol: "tendons",
  text: "tendons of the tension zone",
  values: [
    { value: "PRE", text: "pre-tensioned" },
    { value: "POST", text: "post-tensioned and grouted" },
    { value: "PRE_NEAR_FACE", text: "pre-tensioned, distributed close to the tension face" },
  ],
});

export const crackWidth = choice({
  key: "crackWidth",
  symbol: "w",
  text: "crack width allowed, in mm",
  values: [
    { value: 0.1, text: "aggressive surroundings" },
    { value: 0.2, text: "other surroundings" },
  ],
});
