import type { RunningTestBody } from '#contract/test-days/running-tests.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { completedCalls } from '../../domain/sheets/grading/calls.ts'
import { isCeased, type RunningSheet } from '../../domain/sheets/grading/running-sheet.ts'
import { scoreSoFar } from '../../domain/sheets/grading/sheet-body.ts'

/** How a test on this device stands, for the line of its test day; null for practice, or where day or candidate are not known. */
export const runningReport = (standard: ScoredStandard, sheet: RunningSheet): RunningTestBody | null => {
  const { purpose, testDayId, candidate, graderId, secondOf } = sheet.head
  if (purpose !== 'test' || testDayId === null || candidate.id === null || sheet.void) return null
  const { go, noGo } = scoreSoFar(standard, sheet)
  return {
    testDayId,
    candidateId: candidate.id,
    standard: sheet.head.standard,
    graderId,
    secondOf,
    startedAt: sheet.startedAt,
    state: isCeased(sheet) ? 'ceased' : 'running',
    calls: standard.calls.length,
    callsDone: completedCalls(sheet),
    go,
    noGo,
  }
}
