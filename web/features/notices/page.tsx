import { useInfiniteQuery, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Notice } from '#contract/notices/notices.ts'
import { noticesQuery, readNotices, unreadQuery } from '../../api/notices/notices.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationTitle, standardTitle } from '../../domain/standards/titles.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { momentFact } from '../../parts/readiness/facts.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { formatMoment } from '../../words/format-moment.ts'
import { capital, inWords, plural } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { addressOf, formatNotice } from './format-notice.ts'

/** What happened that concerns whoever is signed in, the latest first. */
export default function NoticesPage() {
  const client = useQueryClient()
  const notices = useInfiniteQuery(noticesQuery)
  const unread = useQuery(unreadQuery).data?.unread
  const standards = useQuery(standardsQuery).data ?? []
  const certifications = useQuery(certificationsQuery).data ?? []
  const units = useQuery(unitsQuery).data ?? []
  const zone = timeZoneOf(units)
  const today = todayIn(zone)
  const titleOf = ({ standard, certification }: Notice) =>
    certification ? certificationTitle(certifications, certification) : standardTitle(standards, standard ?? '')
  const list = notices.data?.pages.flatMap(({ items }) => items)
  const read = useMutation({
    mutationFn: (ids?: string[]) => readNotices(ids),
    onSuccess: () => client.invalidateQueries({ queryKey: ['notices'] }),
  })
  return (
    <Page
      title="Notices"
      answer={
        list &&
        unread !== undefined &&
        (unread === 0
          ? 'Nothing new.'
          : `${capital(inWords(unread))} ${plural(unread, 'notice is', 'notices are')} unread.`)
      }
      why={
        list &&
        'Bookings, sheets, appeals, due days and approvals that concern you, of the last sixty days. What is settled or past needs nothing more.'
      }
      error={list ? null : notices.error}
      onRetry={notices.refetch}
      controls={
        unread !== undefined && unread > 0 ? (
          <Button onClick={() => read.mutate(undefined)} disabled={read.isPending}>
            Mark all as read
          </Button>
        ) : undefined
      }
    >
      {read.error && <Failure error={read.error} />}
      <Section title="Latest first">
        {list?.length === 0 && (
          <Empty>
            Nothing yet. Notices come here when you are booked, moved or decided about.
            <FilledBy steps={['test-days']} />
          </Empty>
        )}
        {list && list.length > 0 && (
          <Table<(typeof list)[number]>
            caption="Notices"
            rows={list}
            rowKey={({ id }) => id}
            columns={[
              {
                head: 'What',
                cell: (notice) => (
                  <Link href={addressOf(notice)} onClick={() => !notice.read && read.mutate([notice.id])}>
                    {notice.read || notice.over ? (
                      formatNotice(notice, titleOf(notice), today, zone)
                    ) : (
                      <b>{formatNotice(notice, titleOf(notice), today, zone)}</b>
                    )}
                  </Link>
                ),
              },
              {
                head: 'When',
                facts: [momentFact('When', ({ at }) => at)],
                bare: true,
                tight: true,
                cell: ({ at }) => formatMoment(at, today),
              },
              {
                head: 'State',
                bare: true,
                cell: ({ read: isRead, over }) =>
                  over ? <span className="muted">over</span> : isRead ? 'read' : <b>new</b>,
              },
            ]}
          />
        )}
        <More hasMore={notices.hasNextPage} loading={notices.isFetchingNextPage} onMore={notices.fetchNextPage}>
          Earlier notices
        </More>
      </Section>
    </Page>
  )
}
