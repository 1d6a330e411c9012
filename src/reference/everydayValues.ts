/**
 * Everyday values of quantities, by the quantity's key, or by key and argument where one quantity stands for several things: a beam of 24 m in C40/50,
 * 1 m high. They belong to no project and decide nothing: they only fill examples for which no published result gives the arguments.
 */
const everydayValues: Readonly<Record<string, number>> = {
  ageAtEndOfCuring: 3, ageAtLoading: 28, concreteAge: 7, relativeHumidity: 70, timeAfterTensioning: 1000, greatestCuringTemperature: 60, initialConcreteTemperature: 20,
  span: 24, tendonLength: 24, bedLength: 60, overhang: 2, controlX: 12, "controlX:x_1": 0, "controlX:x_2": 24, station: 6, distanceFromJack: 12, deviatorDistance: 4, placeTolerance: 0.01, debondedLength: 1,
  sectionHeight: 1000, sectionWidth: 400, "sectionWidth:b_f": 1200, "sectionWidth:b_top": 800, "sectionWidth:b_bot": 600, "sectionWidth:b_w": 200, sectionThickness: 200, "sectionThickness:t_w": 120,
  area: 400_000, centroidHeight: 500, secondMoment: 3.4e10, sectionModulus: 6.8e7, perimeter: 2800, notionalSize: 200, distance: 500, fibreDistance: -500,
  lineLoad: 25, unitWeight: 25, moment: 900, fibreStress: 8, "fibreStress:sigma_p": 9, "fibreStress:sigma_M": -10, "fibreStress:f_t": -2.5,
  prestressForce: 2000, tendonArea: 1800, tendonCount: 4, rank: 2, stressingOrder: 1, eccentricity: 350, "eccentricity:e_end": 100, strandDiameter: 15.7, transmissionLength: 800,
  jackingStress: 1400, initialTendonStress: 1300, tendonStress: 1200, "tendonStress:sigma_pd": 1300, "tendonStress:sigma_pmInf": 1050, "tendonStress:sigma_a": 1250,
  tendonTensileStrength: 1860, tendonProofStress: 1600, tendonModulus: 195, relaxationLoss: 40, "relaxationLoss:earlier": 20,
  angle: 0.1, angleChange: 0.3, frictionCoefficient: 0.19, wobbleAngle: 0.008, wobblePerLength: 0.0015, stressGradient: 5, drawIn: 6,
  concreteStrength: 40, concreteStrengthAtAge: 30, concreteMeanStrength: 48, concreteMeanStrengthAtAge: 38, concreteModulus: 35, elasticModulusConcrete: 35, cubeStrength: 45, cubeStrengthAtTransfer: 35,
  concreteTensileStrength: 3.5, concreteTensileStrengthAtAge: 2.9, concreteTensileStrengthLower: 2.5, effectiveTensileStrength: 3.5, bondStrength: 3.5,
  concreteStressAtTendon: 8, sustainedConcreteStress: 14, creepCoefficient: 2, shrinkageStrain: 0.0003, dryingShrinkageNominal: 0.0004, upperFactor: 1.1, lowerFactor: 0.9,
  volumeSurface: 100, slump: 75, finesShare: 40, airContent: 2, cementContent: 400, dryingTimeBeforeStressing: 10, tendonYieldStress: 1670, "elasticLoss:ES": 60, "timeDependentLoss:CR": 70, "timeDependentLoss:SH": 45, "concreteStressAtTendon:f_cds": 2,
  regionForce: 2500, regionEccentricity: 250, "eccentricityBound:e_min": -400, "eccentricityBound:e_max": 400, vertexNumber: 2, "compressionLimit:f_c": 20, "tensionLimit:f_t": -3, "compressionLimit:bending": 16,
  voidCount: 2, voidDiameter: 150, voidHeight: 500, toppingModulus: 31, fullStressingStrength: 45, forceShare: 0.6, oppositeStress: 12, tendonFromFibre: 80,
  ultimateTension: 3, bondedDistance: 1100, "transmissionLength:l_bpd": 1500, shearForce: 400, leverArm: 850, cotangent: 2,
  concreteTangentModulus: 37, "tendonCount:row": 2, roundCount: 2, "jackingStress:sigma_2": 1300, unintendedAngle: 0.02,
  deviatorAngle: 0.15, "directionAngle:beta_1": 0.1, "directionAngle:beta_2": -0.05, "directionAngle:psi_1": 0.02, "directionAngle:psi_2": -0.03,
  elongation: 165, "elongation:measured": 168, elongationDeviation: 1.8, elongationTolerance: 5, nutTakeUp: 1,
  anchorageLoss: 0.02, jackLoss: 0.03, jackStroke: 150, ramArea: 60_000, gaugePressure: 350, "gaugePressure:p_1": 100, "gaugePressure:p_2": 350, "readElongation:l_1": 46, "readElongation:l_2": 150,
};

/** Where a function wants another value than the rest, by the argument's name: a place inside the length of transmission, a time long after the first. */
const ofFunctions: readonly (readonly [functions: RegExp, values: Readonly<Record<string, number>>])[] = [
  [/^BOND_FRACTION$/, { x: 1.4 }],
  [/_HISTORY_/, { t: 365 }],
  [/_BY_STEPS_|_AT_EVENTS_/, { t: 36_500 }],
];

/** The everyday value of an argument; undefined where none is known. */
export function everydayValue(id: string, name: string, key: string): number | undefined {
  return ofFunctions.find(([functions, values]) => functions.test(id) && name in values)?.[1][name] ?? everydayValues[`${key}:${name}`] ?? everydayValues[key];
}
