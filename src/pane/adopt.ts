/** What the view of the user's own tables works with; fetched when that view is opened. */
export { lookAtTable, machineRows, sampleOf, type AdoptableTable } from "../workbook/adopt-table";
export { planRemoval, typedOver } from "../workbook/adopt-removal";
export { foundMeanings, planResults, type Meanings, type ResultPlan } from "../workbook/adopt-results";
export { routineShare } from "../workbook/audit-formula";
export { languageOf } from "./sheets-language";
