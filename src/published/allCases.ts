import deflection from "./cases/deflection.json";
import en1992 from "./cases/en1992.json";
import fromMemory from "./cases/from-memory.json";
import is1343 from "./cases/is1343.json";
import models from "./cases/models.json";
import products from "./cases/products.json";
import region from "./cases/region.json";
import sizing from "./cases/sizing.json";
import strength from "./cases/strength.json";
import tendons from "./cases/tendons.json";
import workedExamples from "./cases/worked-examples.json";
import type { PublishedCase } from "./case.ts";

/**
 * Every published check, file by file; what the files hold is checked by the tests, not by the compiler. Loaded only
 * where it is asked for.
 */
export const allCases = [
  deflection,
  en1992,
  fromMemory,
  is1343,
  models,
  products,
  region,
  sizing,
  strength,
  tendons,
  workedExamples,
].flat() as unknown as readonly PublishedCase[];
