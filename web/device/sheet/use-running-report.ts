import { useEffect, useRef } from 'react'
import type { ScoredStandard } from '#scoring/types.ts'
import { reportRunning } from '../../api/test-days/line.ts'
import type { RunningSheet } from '../../domain/sheets/grading/running-sheet.ts'
import { runningReport } from './running-report.ts'

const AT_MOST_EVERY_MS = 3_000

/**
 * Tells the server how a running test stands, for whoever watches the line. It is of the moment: at most every three
 * seconds, only with a network, never waited for, never repeated.
 */
export const useRunningReport = (id: string, standard: ScoredStandard, sheet: RunningSheet): void => {
  const lastAt = useRef(0)
  useEffect(() => {
    const wait = Math.max(0, lastAt.current + AT_MOST_EVERY_MS - performance.now())
    const timer = setTimeout(() => {
      lastAt.current = performance.now()
      const report = navigator.onLine ? runningReport(standard, sheet) : null
      if (report) reportRunning(id, report).catch(() => undefined)
    }, wait)
    return () => clearTimeout(timer)
  }, [id, standard, sheet])
}
