import { choiceParts, compose, type Template } from "../sheet/index.ts";
import postTensionedEn1992 from "./post-tensioned-en1992-2004.json";
import preTensionedEn1992 from "./pre-tensioned-en1992-2004.json";
import postTensionedIs1343 from "./post-tensioned-is1343-1980.json";
import preTensionedIs1343 from "./pre-tensioned-is1343-1980.json";
import cracking from "./shared/cracking.json";
import detailing from "./shared/detailing.json";
import en1992 from "./shared/en1992.json";
import is1343 from "./shared/is1343.json";
import loads from "./shared/loads.json";
import notCovered from "./shared/not-covered.json";
import postTensioned from "./shared/post-tensioned.json";
import preTensioned from "./shared/pre-tensioned.json";
import region from "./shared/region.json";
import relations from "./shared/relations.json";
import revisions from "./shared/revisions.json";
import secondOpinion from "./shared/second-opinion.json";
import section from "./shared/section.json";
import sheet from "./shared/sheet.json";
import stressing from "./shared/stressing.json";
import web from "./shared/web.json";

const parts = {
  ...sheet,
  ...section,
  ...loads,
  ...postTensioned,
  ...preTensioned,
  ...en1992,
  ...is1343,
  ...secondOpinion,
  ...region,
  ...relations,
  ...stressing,
  ...revisions,
  ...detailing,
  ...cracking,
  ...web,
  ...notCovered,
  ...choiceParts,
};

/** Every template, in the order people choose from. What a JSON file holds is checked by lint, not by the compiler. */
export const templates: readonly Template[] = [
  postTensionedEn1992,
  preTensionedEn1992,
  postTensionedIs1343,
  preTensionedIs1343,
].map((file) => compose(file, parts) as Template);
