import { quantities } from "./define.ts";

/** Cross-sections. Heights run up from the soffit; fibre distances and eccentricities are positive below the centroid. */
export const section = quantities({
  sectionHeight: {
    symbol: "h",
    unit: "mm",
    text: "overall height of the section",
    above: 0,
    max: 10000,
    typical: [150, 4000],
  },
  sectionWidth: { symbol: "b", unit: "mm", text: "width", above: 0, max: 30000, typical: [80, 15000] },
  sectionThickness: { symbol: "t", unit: "mm", text: "thickness", above: 0, max: 5000, typical: [40, 1500] },
  outlineX: {
    symbol: "x",
    unit: "mm",
    text: "horizontal coordinate of a point of the outline",
    min: -50000,
    max: 50000,
  },
  outlineY: {
    symbol: "y",
    unit: "mm",
    text: "height of a point of the outline above the soffit",
    min: -50000,
    max: 50000,
  },
  area: { symbol: "A", unit: "mm²", text: "area of the section", above: 0, max: 1e9 },
  centroidHeight: {
    symbol: "y_b",
    unit: "mm",
    text: "height of the centroid above the soffit",
    min: -50000,
    max: 50000,
  },
  secondMoment: {
    symbol: "I",
    unit: "mm⁴",
    text: "second moment of area about the horizontal axis through the centroid",
    above: 0,
    max: 1e17,
  },
  sectionModulus: { symbol: "Z", unit: "mm³", text: "section modulus of a fibre", above: 0, max: 1e14 },
  perimeter: { symbol: "u", unit: "mm", text: "drying perimeter", above: 0, max: 1e6 },
  fibreDistance: {
    symbol: "y",
    unit: "mm",
    text: "distance of the fibre from the centroid, positive below",
    min: -20000,
    max: 20000,
  },
  distance: { symbol: "d", unit: "mm", text: "distance", above: 0, max: 20000 },
  heightAboveSoffit: { symbol: "y_p", unit: "mm", text: "height above the soffit", min: -1000, max: 20000 },
  ductDiameter: { symbol: "d", unit: "mm", text: "diameter of the duct", min: 0, max: 500, typical: [20, 200] },
  share: { symbol: "s", unit: "–", text: "share, 0 to 1", min: 0, max: 1 },
});
