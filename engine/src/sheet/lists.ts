/** What goes into files beside the sheets: lists for a spreadsheet, and events for a calendar. Data only. */

/** A list of rows. Names of columns carry their unit: "length (mm)". */
export interface ListFile {
  /** "cut-list": the file's name without its ending. */
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** Something at a time, for a calendar file. */
export interface CalendarEvent {
  /** Stays the same while it is the same event. */
  readonly uid: string;
  /** RFC 3339 in UTC: "2027-03-04T15:00:00Z". */
  readonly start: string;
  readonly end: string;
  readonly summary: string;
  readonly description: string;
}
