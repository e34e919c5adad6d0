/** Where a sheet stands among all sheets: by the instant it finished, then by its id in lower case. */
export interface SheetPlace {
  readonly id: string
  /** Milliseconds since 1970. */
  readonly finishedAt: number
}

/** Compares two places for sorting; negative when `a` comes first. */
export function compareSheets(a: SheetPlace, b: SheetPlace): number {
  return a.finishedAt - b.finishedAt || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)
}
