import { adapted } from "./adapted.ts";
import { choiceParts, compose, withSource, type Parts, type Template } from "../sheet/index.ts";
import choosingEn1992 from "./choosing-en1992-2004.json";
import choosingIs1343 from "./choosing-is1343-1980.json";
import compositePostEn1992 from "./composite-post-tensioned-en1992-2004.json";
import compositePostIs1343 from "./composite-post-tensioned-is1343-1980.json";
import compositePreEn1992 from "./composite-pre-tensioned-en1992-2004.json";
import compositePreIs1343 from "./composite-pre-tensioned-is1343-1980.json";
import crossCheckPostEn1992 from "./cross-check-post-tensioned-en1992-2004.json";
import crossCheckPostIs1343 from "./cross-check-post-tensioned-is1343-1980.json";
import crossCheckPreEn1992 from "./cross-check-pre-tensioned-en1992-2004.json";
import crossCheckPreIs1343 from "./cross-check-pre-tensioned-is1343-1980.json";
import deflectionPostEn1992 from "./deflection-post-tensioned-en1992-2004.json";
import deflectionPostIs1343 from "./deflection-post-tensioned-is1343-1980.json";
import deflectionPreEn1992 from "./deflection-pre-tensioned-en1992-2004.json";
import deflectionPreIs1343 from "./deflection-pre-tensioned-is1343-1980.json";
import domainPostEn1992 from "./feasible-domain-post-tensioned-en1992-2004.json";
import domainPostIs1343 from "./feasible-domain-post-tensioned-is1343-1980.json";
import domainPreEn1992 from "./feasible-domain-pre-tensioned-en1992-2004.json";
import domainPreIs1343 from "./feasible-domain-pre-tensioned-is1343-1980.json";
import endZonesPostEn1992 from "./end-zones-post-tensioned-en1992-2004.json";
import endZonesPostIs1343 from "./end-zones-post-tensioned-is1343-1980.json";
import endZonesPreEn1992 from "./end-zones-pre-tensioned-en1992-2004.json";
import endZonesPreIs1343 from "./end-zones-pre-tensioned-is1343-1980.json";
import longLineEn1992 from "./long-line-pre-tensioned-en1992-2004.json";
import longLineIs1343 from "./long-line-pre-tensioned-is1343-1980.json";
import strengthPostEn1992 from "./strength-post-tensioned-en1992-2004.json";
import strengthPreEn1992 from "./strength-pre-tensioned-en1992-2004.json";
import strengthPostIs1343 from "./strength-post-tensioned-is1343-1980.json";
import strengthPreIs1343 from "./strength-pre-tensioned-is1343-1980.json";
import postTensionedEn1992 from "./post-tensioned-en1992-2004.json";
import preTensionedEn1992 from "./pre-tensioned-en1992-2004.json";
import postTensionedIs1343 from "./post-tensioned-is1343-1980.json";
import preTensionedIs1343 from "./pre-tensioned-is1343-1980.json";
import postTensionedIs1343y2012 from "./post-tensioned-is1343-2012.json";
import preTensionedIs1343y2012 from "./pre-tensioned-is1343-2012.json";
import recordPostEn1992 from "./stressing-record-post-tensioned-en1992-2004.json";
import recordPostIs1343 from "./stressing-record-post-tensioned-is1343-1980.json";
import secondPostEn1992 from "./second-stressing-post-tensioned-en1992-2004.json";
import camber from "./shared/camber.json";
import choosing from "./shared/choosing.json";
import composite from "./shared/composite.json";
import cracking from "./shared/cracking.json";
import detailing from "./shared/detailing.json";
import en1992 from "./shared/en1992.json";
import endZones from "./shared/end-zones.json";
import is1343 from "./shared/is1343.json";
import is1343y2012 from "./shared/is1343-2012.json";
import linked from "./shared/linked.json";
import loads from "./shared/loads.json";
import longLine from "./shared/long-line.json";
import notCovered from "./shared/not-covered.json";
import postTensioned from "./shared/post-tensioned.json";
import preTensioned from "./shared/pre-tensioned.json";
import region from "./shared/region.json";
import relations from "./shared/relations.json";
import revisions from "./shared/revisions.json";
import secondOpinion from "./shared/second-opinion.json";
import secondStressing from "./shared/second-stressing.json";
import section from "./shared/section.json";
import sheet from "./shared/sheet.json";
import stressing from "./shared/stressing.json";
import stressingRecord from "./shared/stressing-record.json";
import strength from "./shared/strength.json";
import web from "./shared/web.json";

/** What `{ "use": name }` stands for in a template's file. */
export const sharedParts: Parts = {
  ...sheet,
  ...section,
  ...loads,
  ...postTensioned,
  ...preTensioned,
  ...en1992,
  ...is1343,
  ...is1343y2012,
  ...secondOpinion,
  ...region,
  ...relations,
  ...stressing,
  ...stressingRecord,
  ...secondStressing,
  ...longLine,
  ...revisions,
  ...detailing,
  ...cracking,
  ...web,
  ...strength,
  ...notCovered,
  ...linked,
  ...endZones,
  ...camber,
  ...composite,
  ...choosing,
  ...choiceParts,
};

/** What a JSON file holds is checked by lint, not by the compiler. */
const whole: readonly Template[] = [
  postTensionedEn1992,
  preTensionedEn1992,
  postTensionedIs1343,
  preTensionedIs1343,
].map((file) => compose(file, sharedParts) as Template);

/** Another edition in the form of one of these. */
const ofAnotherEdition: readonly Template[] = [postTensionedIs1343y2012, preTensionedIs1343y2012].map((file) => {
  const base = whole.find(({ id }) => id === file.base);
  if (!base) throw new Error(`${file.id} has the form of ${file.base}, which is no template`);
  return adapted(base, file, sharedParts);
});

/** The stress checks, in the order people choose from. */
export const templates: readonly Template[] = [...whole, ...ofAnotherEdition];

/** Sheets that stand before a stress check: they take from none, and none takes from them. */
export const choosingTemplates: readonly Template[] = [choosingEn1992, choosingIs1343].map(
  (file) => compose(file, sharedParts) as Template,
);

/** Linked sheets that hold no rule of a standard: the same for another edition of their source's. */
const ofAnyEdition = [
  [domainPostIs1343, postTensionedIs1343y2012],
  [domainPreIs1343, preTensionedIs1343y2012],
  [recordPostIs1343, postTensionedIs1343y2012],
] as const;
const ofLaterEdition = ofAnyEdition.map(([file, { base, id, standard }]) => ({
  ...file,
  id: file.id.replace(base, id),
  version: "1.0.0",
  line: file.line.replace("IS 1343:1980", "IS 1343:2012"),
  standard,
  source: { ...file.source, template: id },
}));

/** Sheets that take values from one of these, in the order they are offered. */
export const linkedTemplates: readonly Template[] = [
  crossCheckPostEn1992,
  crossCheckPreEn1992,
  crossCheckPostIs1343,
  crossCheckPreIs1343,
  domainPostEn1992,
  domainPreEn1992,
  domainPostIs1343,
  domainPreIs1343,
  endZonesPostEn1992,
  endZonesPreEn1992,
  endZonesPostIs1343,
  endZonesPreIs1343,
  recordPostEn1992,
  recordPostIs1343,
  secondPostEn1992,
  longLineEn1992,
  longLineIs1343,
  strengthPostEn1992,
  strengthPreEn1992,
  strengthPostIs1343,
  strengthPreIs1343,
  deflectionPostEn1992,
  deflectionPreEn1992,
  deflectionPostIs1343,
  deflectionPreIs1343,
  compositePostEn1992,
  compositePreEn1992,
  compositePostIs1343,
  compositePreIs1343,
  ...ofLaterEdition,
].map((file) => {
  const source = templates.find(({ id }) => id === file.source.template);
  if (!source) throw new Error(`${file.id} takes from ${file.source.template}, which is no template`);
  return withSource(compose(file, sharedParts) as object, source) as Template;
});

export const allTemplates: readonly Template[] = [...templates, ...choosingTemplates, ...linkedTemplates];
