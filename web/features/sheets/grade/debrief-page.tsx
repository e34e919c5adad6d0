import { useCallback } from 'react'
import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import type { Session } from '#contract/accounts/session.ts'
import type { SheetBody, SheetResult } from '#contract/sheets/sheets.ts'
import type { SheetScore } from '#scoring/types.ts'
import { readDay, readStandard } from '../../../device/store/day-store.ts'
import { readSheet } from '../../../device/store/sheet-store.ts'
import { useKept } from '../../../device/store/use-kept.ts'
import { formatDebrief } from '../../../domain/sheets/format-debrief.ts'
import { formatSheet } from '../../../domain/sheets/format-sheet.ts'
import { closingScore, sheetBody } from '../../../domain/sheets/grading/sheet-body.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { Debrief } from '../../../parts/sheets/debrief.tsx'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Page } from '../../../ui/page.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { unitZone } from '../../../words/unit-zone.ts'
import { formatRetestOffline } from './format-retest-offline.ts'

/** The id on the page of a walk-in whom only the server can name; it is shown as the name that was typed. */
const UNKNOWN = ''

/** A score of this device as the server's answer would say it; which attempt it is only the server knows. */
const asResult = (score: SheetScore): SheetResult => ({
  ...score,
  minors: score.minors.map((minor) => ({ ...minor, faults: [...minor.faults] })),
  attempts: [],
})

/** The debrief of a sheet on this device: it needs no network, and says what is known without one. */
export function DebriefPage({ account, id }: { account: Session; id: string }) {
  const { value: kept } = useKept(useCallback(() => readSheet(account.accountId, id), [account.accountId, id]))
  const [code, version] = [kept?.sheet.head.standard ?? '', kept?.sheet.head.standardVersion ?? 0]
  const { value: keptDay } = useKept(useCallback(() => readDay(account.accountId), [account.accountId]))
  const { value: standard } = useKept(useCallback(() => readStandard(code, version), [code, version]))
  if (!kept || !standard) return <Page title="Debrief" />

  const { head } = kept.sheet
  const scored = scoredStandard(standard)
  const known = { ...kept.sheet, head: { ...head, candidate: { ...head.candidate, id: head.candidate.id ?? UNKNOWN } } }
  const body: SheetBody = kept.body ?? sheetBody(scored, known)
  const result = kept.answer?.result ?? asResult(closingScore(scored, kept.sheet))
  const today = todayIn()
  const day = dayInZone(body.finishedAt, unitZone())
  const name = [head.candidate.grade, head.candidate.familyName].filter(Boolean).join(' ')
  const nameOf = (person: string) => {
    if (person === body.candidateId) return name
    if (person === head.sponsor?.id) return head.sponsor.name
    return person === account.soldierId ? account.name : 'Somebody not on this phone'
  }
  return (
    <Page
      title={`Debrief of ${name}`}
      answer={<bdi>{formatSheet(name, day, result, head.purpose, today)}</bdi>}
      why={formatDebrief(standard, result)}
      controls={
        <>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
          <Link href={addressTo(gradePaths.sheet, { id })}>Back to the sheet</Link>
        </>
      }
    >
      <Debrief
        standard={standard}
        body={body}
        result={result}
        day={day}
        receivedAt={null}
        nameOf={nameOf}
        timeZone={null}
        today={today}
        retest={formatRetestOffline(
          { standard: code, arm: body.arm, day, result, state: kept.answer?.state ?? null },
          keptDay?.list.retests ?? [],
          today,
        )}
        appeal="from when the sheet has arrived on the server"
      />
    </Page>
  )
}
