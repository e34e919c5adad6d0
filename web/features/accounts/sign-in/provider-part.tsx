import { useMutation, useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'wouter'
import type { Health } from '#contract/health/health.ts'
import { answeringQuery, beginSignOn } from '../../../api/sign-on/sign-on.ts'
import { formatSignOnProblem } from '../../../domain/sign-on/format-sign-on-problem.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { ownAddress } from './own-address.ts'
import './provider-part.css'

type Door = Health['signOn']['providers'][number]

/** The ways in by a provider, and what came of the last try. It is loaded only where there is one. */
export default function ProviderPart({ providers }: { providers: readonly Door[] }) {
  const [params] = useSearchParams()
  const answering = useQuery(answeringQuery).data
  const begin = useMutation({
    mutationFn: (providerId: string) =>
      beginSignOn({ providerId, returnPath: ownAddress(params.get('from')), anew: false }),
    onSuccess: ({ address }) => location.assign(address),
  })
  const tried = providers.find(({ id }) => id === params.get('provider'))
  const problem = formatSignOnProblem(params.get('signOn'), tried?.name)
  const isBusy = begin.isPending || begin.isSuccess
  return (
    <section className="doorway-providers" aria-label="Single sign-on">
      {problem && !begin.isPending && (
        <Notice kind="bad">
          <p>{problem}</p>
        </Notice>
      )}
      <ul>
        {providers.map(({ id, name }) => (
          <li key={id}>
            <Button kind="main" disabled={isBusy} onClick={() => begin.mutate(id)}>
              <bdi>Sign in with {name}</bdi>
            </Button>
            {answering && !answering.includes(id) && <span className="muted small">does not answer just now</span>}
          </li>
        ))}
      </ul>
      {begin.error && <Failure error={begin.error} />}
    </section>
  )
}
