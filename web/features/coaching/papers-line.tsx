import { Link } from 'wouter'
import type { CertificationStatus } from '#contract/standards/certifications.ts'
import { addressTo, paths } from '../../paths.ts'
import './record-list.css'

interface PapersLineProps {
  candidateId: string
  statuses: readonly CertificationStatus[]
  titleOf: (certification: string) => string
  /** May take out certificates and all that is held. */
  mayTakeOut: boolean
}

/** What can be taken out about the soldier: certificates of what is in force, and all that is held; and what was known when. */
export function PapersLine({ candidateId, statuses, titleOf, mayTakeOut }: PapersLineProps) {
  const inForce = statuses.filter(({ status, suspended }) => mayTakeOut && status === 'certified' && !suspended)
  return (
    <p className="small no-print papers-line">
      {inForce.map(({ certification }) => (
        <span key={certification}>
          <Link href={addressTo(paths.certificate, { id: candidateId, certification })}>
            Certificate: {titleOf(certification)}
          </Link>
          {' · '}
        </span>
      ))}
      {mayTakeOut && (
        <>
          <Link href={addressTo(paths.extract, { id: candidateId })}>Everything on file about them</Link>
          {' · '}
        </>
      )}
      <Link href={addressTo(paths.asKnown, { id: candidateId })}>As known on a day</Link>
    </p>
  )
}
