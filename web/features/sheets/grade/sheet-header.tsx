import { useCallback } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import { readSheets } from '../../../device/store/sheet-store.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { formatQueue } from '../../../domain/sheets/grading/format-queue.ts'
import type { RunningSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'
import { KeptLine } from './kept-line.tsx'

interface SheetHeaderProps {
  account: Session
  sheet: RunningSheet
  problem: string
  isSlow: boolean
  onMore: () => void
}

/** Whose sheet it is, and whether everything is safe, in two lines; what is not safe is said in full. */
export function SheetHeader({ account, sheet, problem, isSlow, onMore }: SheetHeaderProps) {
  const sheets = useKept(useCallback(() => readSheets(account.accountId), [account.accountId])).value ?? []
  const { state } = useQueue(account.accountId)
  const { candidate, arm, purpose } = sheet.head
  const others = sheets.filter((one) => one.state !== 'running' && one.state !== 'stored')
  return (
    <header className="grade-head">
      <p className="grade-who">
        <b>
          <bdi>
            {candidate.grade} {candidate.familyName}
          </bdi>
        </b>
        {arm && <span>{arm}</span>}
        {purpose === 'practice' && <span className="grade-practice">practice</span>}
      </p>
      <KeptLine isSlow={isSlow} waiting={others.length > 0 ? formatQueue(others, state.phase) : ''} />
      <Button onClick={onMore}>More</Button>
      {problem !== '' && (
        <p className="grade-problem" role="alert">
          {problem}
        </p>
      )}
    </header>
  )
}
