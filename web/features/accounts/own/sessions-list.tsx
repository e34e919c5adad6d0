import { useMutation, useQueryClient } from '@tanstack/react-query'
import type { OwnSession } from '#contract/accounts/accounts.ts'
import { endOwnSession, endOwnSessions, ownSessionsQuery } from '../../../api/accounts/account.ts'
import { setSession } from '../../../api/accounts/session.ts'
import { momentFact } from '../../../parts/readiness/facts.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatMoment } from '../../../words/format-moment.ts'

/** Where one is signed in, and the ways out. */
export function SessionsList({ sessions, today }: { sessions: readonly OwnSession[]; today: string }) {
  const client = useQueryClient()
  const end = useMutation({
    mutationFn: endOwnSession,
    onSettled: () => client.invalidateQueries({ queryKey: ownSessionsQuery.queryKey }),
  })
  const endAll = useMutation({ mutationFn: endOwnSessions, onSuccess: () => setSession(client, null) })
  const failed = end.error ?? endAll.error
  return (
    <>
      <Table<(typeof sessions)[number]>
        caption="Where you are signed in"
        rows={sessions}
        rowKey={({ id }) => id}
        columns={[
          {
            head: 'With',
            cell: ({ device, isThisOne }) => (
              <>
                <b>{device}</b>
                {isThisOne && ', here'}
              </>
            ),
          },
          { head: 'From', cell: ({ network }) => network },
          {
            head: 'Since',
            facts: [momentFact('Since', ({ createdAt }) => createdAt)],
            tight: true,
            cell: ({ createdAt }) => formatMoment(createdAt, today),
          },
          {
            head: 'Last used',
            facts: [momentFact('Last used', ({ seenAt }) => seenAt)],
            tight: true,
            cell: ({ seenAt }) => formatMoment(seenAt, today),
          },
          {
            head: 'End',
            facts: [],
            bare: true,
            cell: ({ id, device, isThisOne }) =>
              !isThisOne && (
                <Button
                  kind="quiet"
                  aria-label={`Sign out: ${device}`}
                  disabled={end.isPending}
                  onClick={() => end.mutate(id)}
                >
                  Sign out
                </Button>
              ),
          },
        ]}
      />
      <p className="account-everywhere">
        <Button onClick={() => endAll.mutate()} disabled={endAll.isPending}>
          Sign out everywhere, here too
        </Button>
      </p>
      {failed && <Failure error={failed} />}
    </>
  )
}
