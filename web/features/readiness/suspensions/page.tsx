import { useInfiniteQuery, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Suspension } from '#contract/readiness/suspensions.ts'
import { invalidateSuspensions, liftSuspension, suspensionsQuery } from '../../../api/readiness/suspensions.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { useMay } from '../../../api/use-may.ts'
import { listName } from '../../../domain/soldiers/format-person.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { More } from '../../../ui/more.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { today as todayIn } from '../../../words/today.ts'
import { formatInForceNow } from './format-suspensions.ts'
import { LiftForm } from './lift-form.tsx'
import { SuspendForm } from './suspend-form.tsx'
import { SuspensionsTable } from './suspensions-table.tsx'

/** Who is suspended and was, and why; commander and office suspend and lift here. */
export default function SuspensionsPage() {
  const [{ soldier: soldierId }, setFilters] = useFilters(['soldier'])
  const pages = useInfiniteQuery(suspensionsQuery({ soldierId: soldierId || undefined }))
  const soldier = useQuery(soldierQuery(soldierId))
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data
  const maySuspend = useMay('suspend')
  const client = useQueryClient()
  const [isOpen, setOpen] = useState(false)
  const [lifting, setLifting] = useState<Suspension | null>(null)
  const today = todayIn(timeZoneOf(units))
  const certifications = certificationsOn(terms ?? [], today)
  const items = pages.data?.pages.flatMap((page) => page.items)
  const whole = soldierId === '' || soldier.data !== undefined || soldier.isError
  const about = soldier.data ? { id: soldier.data.id, text: listName(soldier.data) } : null
  return (
    <Page
      title="Suspensions"
      answer={items && terms && whole ? formatInForceNow(items, pages.hasNextPage) : undefined}
      why="Suspended, a soldier may not stand although certified. The certification goes on running, and counts again from the day it is lifted."
      error={items ? null : pages.error}
      onRetry={pages.refetch}
      controls={
        <>
          {maySuspend && !isOpen && <Button onClick={() => setOpen(true)}>Suspend somebody</Button>}
          {about && (
            <p>
              Of <Link href={addressTo(paths.candidate, { id: about.id })}>{about.text}</Link> alone.{' '}
              <Button kind="quiet" onClick={() => setFilters({ soldier: '' })}>
                Show all
              </Button>
            </p>
          )}
        </>
      }
    >
      {isOpen && terms && whole && (
        <Section title="Suspend" note="from a day on, until lifted">
          <SuspendForm certifications={certifications} today={today} chosen={about} onDone={() => setOpen(false)} />
        </Section>
      )}
      {items && (
        <Section title="Suspensions" note="those not lifted first">
          {items.length === 0 ? (
            <Empty>
              Nobody is suspended, and nobody was.
              <FilledBy steps={['roster']} />
            </Empty>
          ) : (
            <SuspensionsTable
              items={items}
              pages={pages}
              today={today}
              titleOf={(code) => certificationTitle(certifications, code)}
              onLift={maySuspend ? setLifting : null}
            />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show earlier suspensions
          </More>
        </Section>
      )}
      {lifting && (
        <LiftForm
          suspension={lifting}
          today={today}
          title={certificationTitle(certifications, lifting.certification)}
          onLift={async (body) => {
            await liftSuspension(lifting.id, body)
            await invalidateSuspensions(client)
          }}
          onClose={() => setLifting(null)}
        />
      )}
    </Page>
  )
}
