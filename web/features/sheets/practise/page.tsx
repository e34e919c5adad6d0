import { useCallback, useEffect, useMemo, useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { rightNow } from '../../../api/server-clock.ts'
import { createSheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { useKeeping } from '../../../device/sheet/use-sheet-writer.ts'
import { readStandard } from '../../../device/store/day-store.ts'
import type { KeptPractice } from '../../../device/store/kept-practice.ts'
import { dropPractice, keepPractice, readPractice } from '../../../device/store/practice-store.ts'
import { readNoted } from '../../../device/store/study-store.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { practiceBody } from '../../../domain/coaching/running-practice.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { NONE_NOTED } from '../../../domain/sheets/grading/fault-order.ts'
import { Page } from '../../../ui/page.tsx'
import { ClosedPractice } from './closed-practice.tsx'
import { PracticeField } from './practice-field.tsx'

/** Practice of chosen measures on this device. */
export function PracticePage({ account, id }: { account: Session; id: string }) {
  const [found, setFound] = useState<KeptPractice | null>()
  useEffect(() => {
    readPractice(account.accountId, id).then(
      (practice) => setFound(practice ?? null),
      () => setFound(null),
    )
  }, [account.accountId, id])
  if (found === undefined) return <Page title="Practice" />
  if (found) return <Kept account={account} first={found} />
  return (
    <Page
      title="Practice"
      answer="This practice is not on this phone."
      why={
        <>
          It may be sent already, and then stands on the candidate’s page.{' '}
          <Link href={deskPath(account)}>To the desk</Link>
        </>
      }
    />
  )
}

function Kept({ account, first }: { account: Session; first: KeptPractice }) {
  const keeper = useMemo(() => createSheetKeeper(first, keepPractice), [first])
  const { sheet: kept, problem, isElsewhere } = useKeeping(keeper)
  const { standard: code, standardVersion } = kept.practice
  const standard = useKept(useCallback(() => readStandard(code, standardVersion), [code, standardVersion]))
  const noted = useKept(useCallback(() => readNoted(account.accountId, code), [account.accountId, code]))
  const { goOn } = useQueue(account.accountId)
  const [, go] = useLocation()
  if (isElsewhere) {
    return <Page title="Practice" answer="This practice was changed in another window." why={problem} />
  }
  if (!standard.value) return <Page title="Practice" error={standard.error instanceof Error ? standard.error : null} />
  if (kept.state !== 'running') return <ClosedPractice account={account} closed={kept} standard={standard.value} />
  const close = async () => {
    const body = practiceBody(kept.practice, rightNow().toISOString())
    if (body === null) {
      await dropPractice(kept)
      return go(deskPath(account), { replace: true })
    }
    await keeper.change((before) => ({ ...before, state: 'waiting', body }))
    void goOn()
  }
  return (
    <PracticeField
      standard={standard.value}
      keeper={keeper}
      noted={noted.value ?? NONE_NOTED}
      onClose={() => void close()}
    />
  )
}
