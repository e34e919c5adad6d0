import { useInfiniteQuery, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useEffect, useRef } from 'react'
import type { BackupItem } from '#contract/backups/backups.ts'
import { isIdentityKnown } from '../../api/accounts/factors.ts'
import {
  backupAddress,
  backupStatusQuery,
  backupsQuery,
  beginBackup,
  invalidateBackups,
} from '../../api/backups/backups.ts'
import { formatBackupWarning, formatLastGood, formatNext, formatProgress } from '../../domain/backups/format-backup.ts'
import { fact, momentFact } from '../../parts/readiness/facts.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { formatBytes } from '../../words/format-bytes.ts'
import { formatMoment } from '../../words/format-moment.ts'
import { today as todayIn } from '../../words/today.ts'
import { HowToRestore } from './how-to-restore.tsx'
import './backup.css'

/** The backups of the unit: when the last good one was, what is wrong, and all there are. */
export default function BackupPage() {
  const { data: status, error, refetch } = useQuery(backupStatusQuery)
  const pages = useInfiniteQuery(backupsQuery)
  const client = useQueryClient()
  const begin = useMutation({ mutationFn: beginBackup, onSettled: () => invalidateBackups(client) })
  const running = status?.running ?? null
  const today = todayIn(null)
  const warning = status && formatBackupWarning(status, today)
  const items = pages.data?.pages.flatMap((page) => page.items)
  useListAnewAtTheEnd(running !== null)
  return (
    <Page
      title="Backup"
      answer={status && formatLastGood(status, today)}
      why={status && formatNext(status, today)}
      error={status ? null : error}
      onRetry={refetch}
      controls={
        <Button kind="main" disabled={running !== null || begin.isPending} onClick={() => begin.mutate()}>
          Back up now
        </Button>
      }
    >
      {running && (
        <Notice>
          <p>
            {formatProgress(running)}
            {running.all !== null && running.done !== null && (
              <progress className="backup-progress" aria-label="Rows written" max={running.all} value={running.done} />
            )}
          </p>
        </Notice>
      )}
      {!running && begin.error && (
        <Notice kind="bad">
          <p>{begin.error.message}</p>
        </Notice>
      )}
      {!running && warning && (
        <Notice kind="bad">
          <p>{warning}</p>
        </Notice>
      )}
      {items && (
        <Section title="Backups" note="each read back and found whole">
          {items.length === 0 ? (
            <Empty>There is none yet. “Back up now” makes the first one.</Empty>
          ) : (
            <Table<BackupItem>
              caption="Backups"
              pages={pages}
              rows={items}
              rowKey={({ name }) => name}
              columns={[
                {
                  head: 'As of',
                  facts: [momentFact('As of', ({ takenAt }) => takenAt)],
                  tight: true,
                  cell: ({ takenAt }) => formatMoment(takenAt, today),
                },
                {
                  head: 'Size',
                  facts: [fact('Bytes', ({ bytes }) => bytes)],
                  tight: true,
                  cell: ({ bytes }) => formatBytes(bytes),
                },
                {
                  head: 'File',
                  bare: true,
                  cell: ({ name }) => (
                    <a href={backupAddress(name)} download={name} onClick={downloadWhenKnown}>
                      {name}
                    </a>
                  ),
                },
              ]}
            />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show earlier ones
          </More>
        </Section>
      )}
      {status && <HowToRestore folder={status.folder} />}
    </Page>
  )
}

/** A backup holds everything, so the server wants to know who takes it; only then does the link lead there. */
async function downloadWhenKnown(event: React.MouseEvent<HTMLAnchorElement>): Promise<void> {
  event.preventDefault()
  const { href } = event.currentTarget
  if (await isIdentityKnown().catch(() => false)) location.assign(href)
}

/** When one has come to its end there is one more in the list. */
function useListAnewAtTheEnd(isRunning: boolean): void {
  const client = useQueryClient()
  const wasRunning = useRef(isRunning)
  useEffect(() => {
    if (wasRunning.current && !isRunning) void invalidateBackups(client)
    wasRunning.current = isRunning
  }, [isRunning, client])
}
