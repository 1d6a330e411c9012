import type { Declaration, Formula, Spill } from "../formula.ts";
import { bedFormulas } from "./bed/index.ts";
import { bendingFormulas } from "./bending/index.ts";
import { crackingFormulas } from "./cracking/index.ts";
import { compositeMemberFormulas } from "./composite/index.ts";
import { creep } from "./creep/index.ts";
import { deflectionFormulas } from "./deflection/index.ts";
import { drawInFormulas } from "./drawIn/index.ts";
import { elasticFormulas } from "./elastic/index.ts";
import { endZoneFormulas } from "./endZone/index.ts";
import { frictionFormulas } from "./friction/index.ts";
import { is1343Formulas } from "./is1343/index.ts";
import { limits } from "./limits/index.ts";
import { loadingFormulas } from "./loading/index.ts";
import { materials } from "./materials/index.ts";
import { relaxation } from "./relaxation/index.ts";
import { regionFormulas } from "./region/index.ts";
import { sectionFormulas } from "./section/index.ts";
import { shearFormulas } from "./shear/index.ts";
import { shrinkage } from "./shrinkage/index.ts";
import { sizingFormulas } from "./sizing/index.ts";
import { stressFormulas } from "./stress/index.ts";
import { stressingFormulas, stressingSpills } from "./stressing/index.ts";
import { tendonFormulas } from "./tendon/index.ts";
import { transmissionFormulas } from "./transmission/index.ts";
import { timeDependent } from "./timeDependent/index.ts";
import { timeStepFormulas, timeStepSpills } from "./timeStep/index.ts";

/** Every formula, in the order people meet them. */
export const formulas: readonly Formula[] = [
  ...sizingFormulas,
  ...sectionFormulas,
  ...materials,
  ...loadingFormulas,
  ...tendonFormulas,
  ...frictionFormulas,
  ...drawInFormulas,
  ...bedFormulas,
  ...transmissionFormulas,
  ...elasticFormulas,
  ...creep,
  ...shrinkage,
  ...relaxation,
  ...timeDependent,
  ...timeStepFormulas,
  ...limits,
  ...stressFormulas,
  ...crackingFormulas,
  ...regionFormulas,
  ...bendingFormulas,
  ...shearFormulas,
  ...endZoneFormulas,
  ...compositeMemberFormulas,
  ...deflectionFormulas,
  ...stressingFormulas,
  ...is1343Formulas,
];

/** Every function whose result fills several cells. */
export const spills: readonly Spill[] = [...stressingSpills, ...timeStepSpills];

/** Every function of the core, whether its result fills one cell or several. */
export const declarations: readonly Declaration[] = [...formulas, ...spills];
