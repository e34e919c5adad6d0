import { useCallback, useEffect, useState } from 'react'
import { Link } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import type { SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { useKeeping, useSheetWriter } from '../../../device/sheet/use-sheet-writer.ts'
import { readStandard } from '../../../device/store/day-store.ts'
import { readNoted } from '../../../device/store/study-store.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { NONE_NOTED, type NotedFaults } from '../../../domain/sheets/grading/fault-order.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Page } from '../../../ui/page.tsx'
import { ClosedPage } from './closed-page.tsx'
import { Running } from './running.tsx'

/** One grade sheet on this device: under way, or closed. */
export function GradePage({ account, id }: { account: Session; id: string }) {
  const { writing, takeOver } = useSheetWriter(account.accountId, id)
  switch (writing.kind) {
    case 'opening':
      return <Page title="Grade sheet" />
    case 'missing':
      return (
        <Page
          title="Grade sheet"
          answer="This sheet is not on this phone."
          why={
            <>
              It may be on another one, or under another account.{' '}
              <Link href={deskPath(account)}>To the day’s list</Link>, or{' '}
              <Link href={addressTo(paths.sheet, { id })}>look for it on the server</Link>.
            </>
          }
        />
      )
    case 'elsewhere':
      return (
        <Page
          title="Grade sheet"
          answer="This sheet is open in another window, which writes it."
          why="Go on there. When that window is closed, the sheet opens here by itself."
          controls={<Button onClick={takeOver}>Go on here instead</Button>}
        />
      )
    case 'writing':
      return <Written account={account} keeper={writing.keeper} />
  }
}

function Written({ account, keeper }: { account: Session; keeper: SheetKeeper }) {
  const { sheet: kept, isElsewhere, problem } = useKeeping(keeper)
  const { standard: code, standardVersion } = kept.sheet.head
  const standard = useKept(useCallback(() => readStandard(code, standardVersion), [code, standardVersion]))
  const { goOn } = useQueue(account.accountId)
  const noted = useNoted(account.accountId, code)
  if (isElsewhere) {
    return (
      <Page
        title="Grade sheet"
        answer="This sheet was changed in another window."
        why={problem}
        controls={<Button onClick={() => location.reload()}>Open it as it stands</Button>}
      />
    )
  }
  if (!standard.value)
    return <Page title="Grade sheet" error={standard.error instanceof Error ? standard.error : null} />
  if (kept.state !== 'running') {
    return <ClosedPage account={account} id={kept.id} standard={standard.value} problem={problem} />
  }
  if (!noted) return <Page title="Grade sheet" />
  return (
    <Running account={account} standard={standard.value} keeper={keeper} noted={noted} onSend={() => void goOn()} />
  )
}

/** What the unit is marked for, read once, so that no fault moves while one grades; null until it was read. */
const useNoted = (accountId: string, standard: string): NotedFaults | null => {
  const [noted, setNoted] = useState<NotedFaults | null>(null)
  useEffect(() => {
    readNoted(accountId, standard).then(setNoted, () => setNoted(NONE_NOTED))
  }, [accountId, standard])
  return noted
}
