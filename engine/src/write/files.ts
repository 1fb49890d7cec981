/** The writers of other files, behind a door of their own so that their libraries load late. */
export { writeCsv } from "./csv.ts";
export { writeCalendar, type CalendarOptions } from "./calendar.ts";
export { writeDxf, type DxfOptions } from "./dxf.ts";
