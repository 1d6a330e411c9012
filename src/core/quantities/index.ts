import { merged } from "./define.ts";
import { models } from "./models.ts";
import { member } from "./member.ts";
import { section } from "./section.ts";
import { sizing } from "./sizing.ts";
import { tendon } from "./tendon.ts";
import { pretension } from "./pretension.ts";
import { is1343 } from "./is1343.ts";
import { region } from "./region.ts";
import { chosen } from "./chosen.ts";
import { composite } from "./composite.ts";
import { limitQuantities } from "./limits.ts";
import { deflection } from "./deflection.ts";
import { detailing } from "./detailing.ts";
import { concrete } from "./concrete.ts";
import { steel } from "./steel.ts";
import { stressing } from "./stressing.ts";
import { time } from "./time.ts";
import { endZone } from "./endZone.ts";
import { shear } from "./shear.ts";
import { strength } from "./strength.ts";
import { wobble } from "./wobble.ts";

/** Every quantity once, by meaning. */
export const q = merged(
  section,
  member,
  tendon,
  wobble,
  pretension,
  concrete,
  steel,
  stressing,
  time,
  is1343,
  region,
  sizing,
  composite,
  deflection,
  limitQuantities,
  models,
  detailing,
  strength,
  shear,
  endZone,
  chosen,
);
