/** The only door to the report on a member. */
export type { Picture } from "./chapter.ts";
export { NotReportable } from "./memberSheets.ts";
export { readMember, reportOf, type ReportFacts, type ReportOptions } from "./report.ts";
export { reportSheetPlan } from "./sheetPlan.ts";
