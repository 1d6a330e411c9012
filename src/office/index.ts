/** The only door to what an office does with many sheets: tables of members, registers, defaults. */
export { NotATable, readCsv, textOfBytes, writeCsv, type Separator } from "./csv.ts";
export { largestDefaults, OfficeDefaults, readDefaults, type Chosen, type DefaultChange } from "./defaults.ts";
export { dividedSettings, linkedFor, linkedName, linkedPlanFor, linkedSettings, snapshotOf } from "./linked.ts";
export {
  builtMember,
  byConfiguration,
  plannedMember,
  refusedEntry,
  type BuiltMember,
  type PlannedMember,
  type Run,
} from "./memberSheets.ts";
export { membersOnHost, mostInWorkbook, rowsOf, type OnHost } from "./membersOnHost.ts";
export { tableToFill, type TableToFill } from "./tableToFill.ts";
export { membersOf, type BadRow, type Member, type TableRow, type TableTemplates } from "./memberTable.ts";
export { expanded, planFor, shapeText } from "./planFor.ts";
export { Refused } from "./refused.ts";
export { comparedWithLast, entriesOf, gone, notBuilt, NotARegister, registerRows, type Entry } from "./register.ts";
export { registerPlan } from "./registerPlan.ts";
export { asksFor, inputIds, partedBy, settingsOf, type Settings } from "./settings.ts";
export { markedInputs } from "./markedInputs.ts";
export {
  draftTemplate,
  idOfName,
  keepChecked,
  keepSheet,
  keepTemplate,
  refusedFor,
  type About,
  type KeptSheet,
  type Pause,
} from "./keep/keepTemplate.ts";
export { kinds as kindsOfUnderstood, type Refusal, type Understood } from "./keep/understood.ts";
export type { InputToKeep } from "./keep/inputsToKeep.ts";
export {
  largestTemplate,
  readTemplate,
  sha256Of,
  templateText,
  type OfficeTemplate,
} from "./templates/templateFile.ts";
export {
  indexName,
  indexOf,
  readIndex,
  readIndexed,
  type Indexed,
  type TemplateIndex,
} from "./templates/templateIndex.ts";
