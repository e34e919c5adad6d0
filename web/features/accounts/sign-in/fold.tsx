import { useQuery } from '@tanstack/react-query'
import { healthQuery } from '../../../api/accounts/session.ts'
import { answeringQuery } from '../../../api/sign-on/sign-on.ts'
import { Disclosure } from '../../../ui/disclosure.tsx'

/** Name and password behind a line to open; it stands open where a provider does not answer. */
export default function Fold({ children }: { children: React.ReactNode }) {
  const providers = useQuery(healthQuery).data?.signOn.providers ?? []
  const answering = useQuery(answeringQuery).data
  const allAnswer = !answering || providers.every(({ id }) => answering.includes(id))
  return (
    <div className="doorway-fold">
      <Disclosure key={String(allAnswer)} title="Sign in with name and password" open={!allAnswer}>
        {children}
      </Disclosure>
    </div>
  )
}
