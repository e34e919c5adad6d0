import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { sheetsQuery } from '../../../api/sheets/sheets.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { titleUnder } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { More } from '../../../ui/more.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { formatHeld, formatWhatToDo } from './format-held.ts'
import { HeldSheet } from './held-sheet.tsx'
import './held.css'

/** The sheets that wait for the training office. */
export default function HeldPage() {
  const pages = useInfiniteQuery(sheetsQuery({ state: 'held' }))
  const standards = useQuery(standardsQuery).data ?? []
  const certifications = useQuery(certificationsQuery).data ?? []
  const units = useQuery(unitsQuery).data ?? []
  const [done, setDone] = useState<string | null>(null)
  const sheets = pages.data?.pages.flatMap(({ items }) => items)
  const today = todayIn(timeZoneOf(units))
  return (
    <Page
      title="Held sheets"
      answer={sheets && formatHeld(sheets, pages.hasNextPage)}
      why={sheets && formatWhatToDo(sheets)}
      error={sheets ? null : pages.error}
      onRetry={pages.refetch}
    >
      {done && (
        <Notice kind="good">
          <p>{done}</p>
        </Notice>
      )}
      {sheets && (
        <Section title="Held" note="the newest first">
          {sheets.length === 0 && (
            <Empty>
              <p>Nothing to decide. Sheets that are held later show here with the reason.</p>
              <FilledBy steps={['test-days']} />
            </Empty>
          )}
          {sheets.map((sheet) => (
            <HeldSheet
              key={sheet.id}
              sheet={sheet}
              standards={standards}
              titleOf={titleUnder(certifications, standards)}
              today={today}
              onDecided={(decision) => {
                const whose = sheet.people[sheet.body.candidateId] ?? 'the candidate'
                setDone(
                  `The sheet of ${whose} ${decision === 'count' ? 'counts now' : 'is rejected'}; the reason is kept with it.`,
                )
              }}
            />
          ))}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show more held sheets
          </More>
        </Section>
      )}
    </Page>
  )
}
