import { useInfiniteQuery, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { FailedMail } from '#contract/mail/mail.ts'
import {
  dropMail,
  failedMailsQuery,
  invalidateMail,
  mailStatusQuery,
  retryMail,
  sendTestMail,
} from '../../api/mail/mail.ts'
import { ownMailQuery } from '../../api/mail/own-mail.ts'
import { momentFact } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { More } from '../../ui/more.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { formatMoment } from '../../words/format-moment.ts'
import { today as todayIn } from '../../words/today.ts'
import { formatQueue, formatServer, KIND_WORDS } from './format-mail.ts'
import './mail.css'

/** The queue of mail: what waits, what stands in the way, what was given up. */
export default function MailPage() {
  const { data: status, error, refetch } = useQuery(mailStatusQuery)
  const own = useQuery(ownMailQuery).data
  const client = useQueryClient()
  const test = useMutation({ mutationFn: sendTestMail, onSettled: () => invalidateMail(client) })
  const today = todayIn(null)
  return (
    <Page
      title="Mail"
      answer={status && formatQueue(status)}
      why={status && formatServer(status, today)}
      error={status ? null : error}
      onRetry={refetch}
      controls={
        status?.on && own?.state === 'confirmed' ? (
          <Button kind="main" disabled={test.isPending} onClick={() => test.mutate()}>
            Send a test mail to my address
          </Button>
        ) : undefined
      }
    >
      {status?.on && own && own.state !== 'confirmed' && (
        <p className="mail-hint">
          To send a test mail, give your own address under <Link href={paths.account}>My account</Link> and confirm it.
        </p>
      )}
      {test.data && (
        <Notice kind="good">
          <p>A test mail to {own?.address} is in the queue. It goes out within a minute; look there, and here.</p>
        </Notice>
      )}
      {test.error && <Failure error={test.error} />}
      {status?.problem && (
        <Notice kind="bad">
          <p>
            Mail waits. {formatMoment(status.problem.at, today)}: <q className="mail-said">{status.problem.text}</q>
          </p>
        </Notice>
      )}
      {status && <Failures today={today} />}
    </Page>
  )
}

function Failures({ today }: { today: string }) {
  const pages = useInfiniteQuery(failedMailsQuery)
  const client = useQueryClient()
  const renew = { onSettled: () => invalidateMail(client) }
  const retry = useMutation({ mutationFn: retryMail, ...renew })
  const drop = useMutation({ mutationFn: dropMail, ...renew })
  const items = pages.data?.pages.flatMap((page) => page.items)
  const busy = retry.isPending || drop.isPending
  const failed = retry.error ?? drop.error ?? (items ? null : pages.error)
  return (
    <Section title="Undelivered" note="kept for thirty days">
      {items?.length === 0 && (
        <Empty>
          Nothing is undelivered. Everybody chooses their mail under <Link href={paths.account}>My account</Link>.
        </Empty>
      )}
      {items && items.length > 0 && (
        <Table<FailedMail>
          caption="Undelivered mail"
          pages={pages}
          rows={items}
          rowKey={({ id }) => id}
          columns={[
            { head: 'Account', cell: ({ accountName }) => <bdi>{accountName}</bdi> },
            { head: 'Address', cell: ({ address }) => <span className="mail-said">{address ?? 'none now'}</span> },
            { head: 'What', bare: true, cell: ({ kind }) => KIND_WORDS[kind] },
            { head: 'Said', cell: ({ problem }) => <span className="mail-said">{problem}</span> },
            {
              head: 'When',
              facts: [momentFact('When', ({ failedAt }) => failedAt)],
              tight: true,
              cell: ({ failedAt }) => formatMoment(failedAt, today),
            },
            {
              head: 'Then',
              facts: [],
              bare: true,
              cell: ({ id, accountName, isRefused, kind }) => (
                <span className="mail-buttons">
                  {isRefused && kind !== 'code' ? (
                    <span className="muted small">until the address is confirmed again</span>
                  ) : (
                    <Button
                      kind="quiet"
                      aria-label={`Try again: ${accountName}`}
                      disabled={busy}
                      onClick={() => retry.mutate(id)}
                    >
                      Try again
                    </Button>
                  )}
                  <Button
                    kind="quiet"
                    aria-label={`Drop: ${accountName}`}
                    disabled={busy}
                    onClick={() => drop.mutate(id)}
                  >
                    Drop
                  </Button>
                </span>
              ),
            },
          ]}
        />
      )}
      <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
        Show earlier ones
      </More>
      {failed && <Failure error={failed} />}
    </Section>
  )
}
