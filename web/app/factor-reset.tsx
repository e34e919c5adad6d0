import { useMutation, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { knowOfReset } from '../api/accounts/factors.ts'
import { sessionQuery } from '../api/accounts/session.ts'
import { paths } from '../paths.ts'
import { Button } from '../ui/button.tsx'
import { Notice } from '../ui/notice.tsx'
import { formatMoment } from '../words/format-moment.ts'
import { today } from '../words/today.ts'

/** Tells on every page that somebody took one's second factors away, until one says that one knows. */
export default function FactorResetNotice({ reset }: { reset: NonNullable<Session['factorReset']> }) {
  const client = useQueryClient()
  const know = useMutation({
    mutationFn: knowOfReset,
    onSuccess: () => client.invalidateQueries({ queryKey: sessionQuery.queryKey }),
  })
  return (
    <div className="factor-reset no-print">
      <Notice>
        <p>
          <bdi>{reset.by}</bdi> took your second factor away on {formatMoment(reset.at, today(null))}:{' '}
          <bdi>{reset.reason}</bdi>. If you did not ask for it, tell them at once. Set up a new one under{' '}
          <Link href={paths.account}>My account</Link>.
        </p>
        <Button onClick={() => know.mutate()} disabled={know.isPending}>
          I know about this
        </Button>
      </Notice>
    </div>
  )
}
