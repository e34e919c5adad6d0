import type { KeptSheet } from '../store/kept-sheet.ts'
import { WrittenElsewhereError } from '../store/sheet-store.ts'
import { formatKeepingProblem } from './format-keeping-problem.ts'

/** What to show: the sheet, and whether it is safe on this device. */
export interface Keeping<Kept> {
  readonly sheet: Kept
  /** Empty unless the device refused; else what is wrong, in words. */
  readonly problem: string
  /** The device takes long: what is shown is not on its disk yet. */
  readonly isSlow: boolean
  /** Another window writes this sheet; nothing more is taken here. */
  readonly isElsewhere: boolean
}

/** A change that is not on the disk after so long is shown all the same, with the words that it is not kept. */
const PATIENCE_MS = 400
const AGAIN_MS = 2_000

/**
 * Keeps a sheet, or practice, while it is marked. A change is shown when it is on the disk: so what a grader has seen is never lost,
 * whatever is killed. Where the device refuses, the sheet goes on in memory, says so, and tries again.
 */
export const createSheetKeeper = <Kept extends { readonly revision: number }>(
  first: Kept,
  keep: (sheet: Kept) => Promise<void>,
) => {
  let latest = first
  let shown: Keeping<Kept> = { sheet: first, problem: '', isSlow: false, isElsewhere: false }
  let writing: Promise<void> | null = null
  let again: ReturnType<typeof setTimeout> | undefined
  const listeners = new Set<() => void>()

  const show = (next: Keeping<Kept>) => {
    shown = next
    for (const listener of listeners) listener()
  }
  const write = async () => {
    clearTimeout(again)
    while (shown.sheet !== latest || shown.problem !== '') {
      const sheet = latest
      const late = setTimeout(() => show({ ...shown, sheet: latest, isSlow: true }), PATIENCE_MS)
      try {
        await keep(sheet)
        show({ sheet, problem: '', isSlow: false, isElsewhere: false })
      } catch (error) {
        const isElsewhere = error instanceof WrittenElsewhereError
        show({
          sheet: isElsewhere ? sheet : latest,
          problem: formatKeepingProblem(error),
          isSlow: false,
          isElsewhere,
        })
        if (!isElsewhere) again = setTimeout(start, AGAIN_MS)
        return
      } finally {
        clearTimeout(late)
      }
    }
  }
  const start = (): Promise<void> => {
    writing ??= write().finally(() => {
      writing = null
    })
    return writing
  }

  return {
    /** Takes a change; the promise ends when the device has kept it or refused. A change that changes nothing is none. */
    change(next: (sheet: Kept) => Kept): Promise<void> {
      if (shown.isElsewhere) return Promise.resolve()
      const changed = next(latest)
      if (changed === latest) return Promise.resolve()
      latest = { ...changed, revision: latest.revision + 1 }
      if (shown.isSlow || shown.problem !== '') show({ ...shown, sheet: latest })
      return start()
    },
    shown: () => shown,
    /** The sheet with all that was taken, on the disk or on its way there: what a next change is judged by. */
    taken: () => latest,
    /** Is everything on the disk? */
    isKept: () => shown.sheet === latest && !shown.isSlow && shown.problem === '',
    subscribe(listener: () => void) {
      listeners.add(listener)
      return () => {
        listeners.delete(listener)
      }
    },
  }
}

export type Keeper<Kept extends { readonly revision: number }> = ReturnType<typeof createSheetKeeper<Kept>>
export type SheetKeeper = Keeper<KeptSheet>
