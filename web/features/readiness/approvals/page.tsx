import { useInfiniteQuery, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { AwardDecisionBody, WaitingAward } from '#contract/readiness/commanders-words.ts'
import { decideAwards, invalidateStandings, waitingAwardsQuery } from '../../../api/readiness/commanders-words.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { useMay } from '../../../api/use-may.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../../domain/standards/titles.ts'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { More } from '../../../ui/more.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { formatWaiting } from './format-approvals.ts'
import { SignDialog } from './sign-dialog.tsx'
import { keyOf, WaitingTable } from './waiting-table.tsx'

/** What was earned by test and waits for a commander, to sign several at once or to refuse. */
export default function ApprovalsPage() {
  const pages = useInfiniteQuery(waitingAwardsQuery({}))
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const maySign = useMay('approve-awards')
  const client = useQueryClient()
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set())
  const [decision, setDecision] = useState<AwardDecisionBody['decision'] | null>(null)
  const today = todayIn(timeZoneOf(units))
  const certifications = certificationsOn(terms, today)
  const titleOf = (code: string) => certificationTitle(certifications, code)
  const items = pages.data?.pages.flatMap((page) => page.items)
  const ticked = items?.filter((item) => chosen.has(keyOf(item))) ?? []
  const tick = (item: WaitingAward, on: boolean) => {
    const next = new Set(chosen)
    if (on) next.add(keyOf(item))
    else next.delete(keyOf(item))
    setChosen(next)
  }
  const areAll = items !== undefined && ticked.length === items.length
  return (
    <Page
      title="To sign"
      answer={items && formatWaiting(items, pages.hasNextPage, today)}
      why={
        items?.length === 0
          ? 'What is earned by test comes here where the terms of the certification ask for a commander’s signature.'
          : 'All tests are passed; the terms of the certification ask for a commander’s signature. Until then the soldier may not stand by it, while an earlier certification holds to its last day.'
      }
      error={items ? null : pages.error}
      onRetry={pages.refetch}
      controls={
        maySign && items && items.length > 0 ? (
          <>
            <Button onClick={() => setChosen(areAll ? new Set() : new Set(items.map((item) => keyOf(item))))}>
              {areAll ? 'Tick none' : 'Tick all'}
            </Button>
            <Button kind="main" disabled={ticked.length === 0} onClick={() => setDecision('approve')}>
              Sign {ticked.length > 0 ? ticked.length : ''}
            </Button>
            <Button disabled={ticked.length === 0} onClick={() => setDecision('refuse')}>
              Refuse {ticked.length > 0 ? ticked.length : ''}
            </Button>
          </>
        ) : undefined
      }
    >
      {items && (
        <Section title="Earned by test" note={items.length > 0 ? 'the longest waiting first' : undefined}>
          {items.length === 0 ? (
            <Empty>
              Whether a certification asks for one is said in its terms, under{' '}
              <Link href={paths.standards}>Standards and certifications</Link>.
            </Empty>
          ) : (
            <WaitingTable
              items={items}
              pages={pages}
              today={today}
              titleOf={titleOf}
              maySign={maySign}
              isTicked={(item) => chosen.has(keyOf(item))}
              onTick={tick}
            />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show more that wait
          </More>
        </Section>
      )}
      {decision && (
        <SignDialog
          decision={decision}
          items={ticked}
          today={today}
          titleOf={titleOf}
          onDecide={async (body) => {
            const chosenItems = ticked.map(({ certification, sheetId }) => ({ certification, sheetId }))
            await decideAwards({ decision, ...body, items: chosenItems })
            setChosen(new Set())
            await invalidateStandings(client)
          }}
          onClose={() => setDecision(null)}
        />
      )}
    </Page>
  )
}
