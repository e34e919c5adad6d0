import { useMemo } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { clockAhead } from '../../../api/server-clock.ts'
import type { SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { useRunningReport } from '../../../device/sheet/use-running-report.ts'
import { useKeeping } from '../../../device/sheet/use-sheet-writer.ts'
import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import type { NotedFaults } from '../../../domain/sheets/grading/fault-order.ts'
import { notesWithClock } from '../../../domain/sheets/grading/format-clock.ts'
import { sheetBody } from '../../../domain/sheets/grading/sheet-body.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { RunningField } from './running-field.tsx'
import { SheetHeader } from './sheet-header.tsx'
import { useWakeLock } from './use-wake-lock.ts'
import { useWalkIn } from './walk-in.ts'
import { WalkInPart } from './walk-in-part.tsx'

interface RunningProps {
  account: Session
  standard: Standard
  keeper: SheetKeeper
  /** What the unit is marked for. */
  noted: NotedFaults
  /** Something is on the device that may go out: a closed sheet, or a walk-in put right. */
  onSend: () => void
}

const NOT_TAKEN = 'Who came without a booking was not found or not taken: put it right under More.'

/** The sheet as it is closed, with the body it will be sent with where that is known already. */
const closed = (before: KeptSheet, scored: ScoredStandard): KeptSheet => {
  const sheet = { ...before.sheet, notes: notesWithClock(before.sheet.notes, clockAhead()) }
  const { head } = sheet
  const body = head.candidate.id === null || head.secondOf !== null ? null : sheetBody(scored, sheet)
  return {
    ...before,
    sheet,
    state: 'waiting',
    closedAt: new Date().toISOString(),
    body,
    message: '',
    refusedWith: null,
  }
}

/** A sheet of this device under way: the phone stays awake, the line is told, and it is sent when it is closed. */
export function Running({ account, standard, keeper, noted, onSend }: RunningProps) {
  const { sheet: kept, problem, isSlow } = useKeeping(keeper)
  const scored = useMemo(() => scoredStandard(standard), [standard])
  useWakeLock(true)
  useRunningReport(kept.id, scored, kept.sheet)
  const walkIn = useWalkIn(account.accountId, kept.id, kept.sheet.head.candidate.id === null)
  return (
    <RunningField
      standard={standard}
      keeper={keeper}
      noted={noted}
      header={(onMore) => (
        <SheetHeader
          account={account}
          sheet={kept.sheet}
          problem={problem || (walkIn?.state === 'refused' ? NOT_TAKEN : '')}
          isSlow={isSlow}
          onMore={onMore}
        />
      )}
      whoIsTested={(onTap) =>
        kept.sheet.head.candidate.id === null && (
          <WalkInPart head={kept.sheet.head} walkIn={walkIn} onTap={onTap} onSend={onSend} />
        )
      }
      leaveTo={deskPath(account)}
      onClose={() => void keeper.change((before) => closed(before, scored)).then(onSend)}
    />
  )
}
