import { useMutation } from '@tanstack/react-query'
import type { Provider } from '#contract/sign-on/providers.ts'
import { testProvider } from '../../api/sign-on/providers.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { formatProvider } from './format-providers.ts'

const HEAD = { good: 'In order', note: 'Worth knowing', bad: 'Wrong' } as const

/** A provider, what it does, and a test that says what is wrong with it. */
export function ProviderRow({ provider, onChange }: { provider: Provider; onChange: () => void }) {
  const { id, name, issuer } = provider
  const test = useMutation({ mutationFn: () => testProvider(id) })
  return (
    <li className="sign-on-provider">
      <div>
        <p>
          <b>
            <bdi>{name}</bdi>
          </b>{' '}
          <span className="muted small sign-on-address">{issuer}</span>
        </p>
        <p>{formatProvider(provider)}</p>
      </div>
      <div className="sign-on-buttons">
        <Button aria-label={`Test ${name}`} disabled={test.isPending} onClick={() => test.mutate()}>
          Test
        </Button>
        <Button aria-label={`Change ${name}`} onClick={onChange}>
          Change
        </Button>
      </div>
      {test.error && <Failure error={test.error} />}
      {test.data && (
        <Notice kind={test.data.works ? 'good' : 'bad'}>
          <p>
            {test.data.works
              ? `${name} is ready. Whether a person gets in shows when one signs in.`
              : `${name} cannot sign anybody in yet.`}
          </p>
          <ul className="sign-on-findings">
            {test.data.findings.map(({ kind, says }) => (
              <li key={says}>
                <b>{HEAD[kind]}:</b> {says}
              </li>
            ))}
          </ul>
        </Notice>
      )}
    </li>
  )
}
