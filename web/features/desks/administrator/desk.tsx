import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Account } from '#contract/accounts/accounts.ts'
import type { BackupStatus } from '#contract/backups/backups.ts'
import type { RecordItem } from '#contract/record/record.ts'
import { accountsQuery } from '../../../api/accounts/accounts.ts'
import { backupStatusQuery } from '../../../api/backups/backups.ts'
import { mailStatusQuery } from '../../../api/mail/mail.ts'
import { recordQuery } from '../../../api/record/record.ts'
import { formatBackupWarning, formatLastGood } from '../../../domain/backups/format-backup.ts'
import { formatAction, formatAuthor } from '../../../domain/record/format-record.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatMoment } from '../../../words/format-moment.ts'
import { capital, countedInWords } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'

const ENTRIES_SHOWN = 12

/** The administrator's desk: whose invitation is not taken yet, and what was changed last. */
export default function AdministratorDesk() {
  const invited = useInfiniteQuery(accountsQuery({ state: 'invited' }))
  const record = useInfiniteQuery(recordQuery({}, ENTRIES_SHOWN))
  const backup = useQuery(backupStatusQuery).data
  const mail = useQuery(mailStatusQuery).data
  const today = todayIn()
  const waiting = invited.data?.pages.flatMap(({ items }) => items)
  const entries = record.data?.pages[0]?.items
  return (
    <Page
      title="Desk"
      answer={waiting && formatWaiting(waiting.length, invited.hasNextPage)}
      why="You keep accounts, roles and the record of changes. Grades are not shown to you."
      error={waiting ? null : invited.error}
      onRetry={invited.refetch}
    >
      {backup && <BackupLine status={backup} today={today} />}
      {mail && (mail.failed > 0 || mail.problem) && (
        <Notice kind="bad">
          <p>
            {mail.problem ? 'Mail is waiting because something blocks it.' : formatGivenUp(mail.failed)}{' '}
            <Link href={paths.mail}>To the mail</Link>
          </p>
        </Notice>
      )}
      <Section title="Invited" note="the link is not used yet" more={<Link href={paths.accounts}>All accounts</Link>}>
        {waiting?.length === 0 && (
          <Empty>
            Nobody waits for a link. Invite somebody on the page of accounts.
            <FilledBy steps={['accounts']} />
          </Empty>
        )}
        {waiting && waiting.length > 0 && (
          <Table<Account>
            caption="Invited accounts"
            rows={waiting}
            rowKey={({ id }) => id}
            columns={[
              { head: 'Name', cell: ({ name }) => <bdi>{name}</bdi> },
              { head: 'Soldier', cell: ({ soldier }) => (soldier ? <bdi>{soldier}</bdi> : '–') },
              {
                head: 'Link',
                cell: ({ linkExpiresAt }) =>
                  linkExpiresAt ? `until ${formatMoment(linkExpiresAt, today)}` : 'expired; send a new one',
              },
            ]}
          />
        )}
      </Section>
      <Section title="Changed last" more={<Link href={paths.record}>The whole record</Link>}>
        {entries?.length === 0 && <Empty>Nothing is on record yet.</Empty>}
        {entries && entries.length > 0 && (
          <Table<RecordItem>
            caption="The latest changes"
            rows={entries}
            rowKey={({ seq }) => String(seq)}
            columns={[
              { head: 'When', tight: true, cell: ({ at }) => formatMoment(at, today) },
              { head: 'What', bare: true, cell: ({ action }) => formatAction(action) },
              { head: 'Who', cell: (item) => <bdi>{formatAuthor(item)}</bdi> },
            ]}
          />
        )}
      </Section>
    </Page>
  )
}

/** When the last good backup was; a warning where something is wrong with them. */
function BackupLine({ status, today }: { status: BackupStatus; today: string }) {
  const warning = formatBackupWarning(status, today)
  return (
    <Notice kind={warning ? 'bad' : 'plain'}>
      <p>
        {warning ?? formatLastGood(status, today)} <Link href={paths.backup}>To the backups</Link>
      </p>
    </Notice>
  )
}

const formatGivenUp = (count: number): string => capital(`${countedInWords(count, 'mail')} could not be delivered.`)

const formatWaiting = (count: number, more: boolean): string => {
  if (count === 0) return 'Everybody invited has signed in.'
  return capital(
    `${more ? 'more than ' : ''}${countedInWords(count, 'invitation')} ${count === 1 ? 'is' : 'are'} not accepted yet.`,
  )
}
