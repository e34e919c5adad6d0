import { Link } from 'wouter'
import type { CertificationStatus } from '#contract/standards/certifications.ts'
import { addressTo, paths } from '../../paths.ts'
import './record-list.css'

interface PapersLineProps {
  candidateId: string
  statuses: readonly CertificationStatus[]
  titleOf: (certification: string) => string
}

/** What can be taken out about the soldier: certificates of what is in force, and all that is held. */
export function PapersLine({ candidateId, statuses, titleOf }: PapersLineProps) {
  const inForce = statuses.filter(({ status, suspended }) => status === 'certified' && !suspended)
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
      <Link href={addressTo(paths.extract, { id: candidateId })}>Everything on file about them</Link>
    </p>
  )
}
