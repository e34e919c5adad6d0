/** How large and how long a record is. */
export interface RecordSize {
  readonly sheets: number
  /** Of 300 soldiers each. */
  readonly battalions: number
  readonly years: number
}
