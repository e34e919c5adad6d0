interface TimedSheet {
  readonly id: string
  readonly secondOf: string | null
  readonly startedAt: number
  readonly finishedAt: number
}

/**
 * The ids of a soldier's sheets that run at the same time as another; touching is no overlap, and the sheets of two
 * graders of the same attempt do not count against each other.
 */
export function overlappingSheets(sheets: readonly TimedSheet[]): Set<string> {
  const byStart = [...sheets].sort((a, b) => a.startedAt - b.startedAt)
  const found = new Set<string>()
  byStart.forEach((sheet, index) => {
    for (const later of byStart.slice(index + 1)) {
      if (later.startedAt >= sheet.finishedAt) break
      if (later.finishedAt <= sheet.startedAt || attemptOf(sheet) === attemptOf(later)) continue
      found.add(sheet.id).add(later.id)
    }
  })
  return found
}

const attemptOf = (sheet: TimedSheet): string => sheet.secondOf ?? sheet.id
