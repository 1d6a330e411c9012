import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const whole = [
  { value: "AREA", text: "area in mm²" },
  { value: "CENTROID", text: "height of the centroid above the soffit in mm" },
  { value: "INERTIA", text: "second moment of area about the centroid in mm⁴" },
] as const;

/** What is wanted of a section. */
/** Why what only one property takes may stand in the call for another. */
export const oneCallForAll = "so that one call serves every property";

export const sectionProperty = choice({
  key: "sectionProperty",
  symbol: "property",
  text: "property of the section that is wanted",
  values: [...whole, { value: "PERIMETER", text: "drying perimeter in mm" }],
});

/** What is wanted of a section with something added or taken out. */
export const changedProperty = choice({
  key: "changedSectionProperty",
  symbol: "property",
  text: "property of the section that is wanted",
  values: whole,
});

/** A property of a section whatever it is. */
export const anyProperty = q.sectionProperty;

/** What is wanted of a section given point by point. */
export const outlineProperty = choice({
  key: "outlineProperty",
  symbol: "property",
  text: "property of the section that is wanted",
  values: [
    ...whole,
    { value: "PERIMETER", text: "perimeter of the outline in mm" },
    { value: "LATERAL_CENTROID", text: "horizontal coordinate of the centroid in mm" },
    { value: "LATERAL_INERTIA", text: "second moment about the vertical axis in mm⁴" },
    { value: "PRODUCT_INERTIA", text: "product moment about the centroid in mm⁴" },
  ],
});

/** What is wanted of a section at a height. */
export const levelProperty = choice({
  key: "levelPropertyName",
  symbol: "property",
  text: "property at the height that is wanted",
  values: [
    { value: "WIDTH", text: "width in mm" },
    { value: "AREA_BELOW", text: "area below the height in mm²" },
    { value: "FIRST_MOMENT", text: "first moment about the centroid of the part beyond the height in mm³" },
  ],
});

/** What is wanted of a cracked section. */
export const crackedProperty = choice({
  key: "crackedPropertyName",
  symbol: "property",
  text: "what is wanted of the cracked section",
  values: [
    { value: "COMPRESSION_DEPTH", text: "depth of the compressed concrete in mm" },
    { value: "CONCRETE_STRESS", text: "max. concrete stress in MPa" },
    { value: "STEEL_STRESS", text: "stress of the layer of steel “row” in MPa" },
  ],
});
