import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { soldierStatusQuery } from '../../../api/soldiers/soldiers.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { certificationTitle } from '../../../domain/standards/titles.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Page } from '../../../ui/page.tsx'

/** Of which certification in force a certificate is to be made. */
export function ChooseCertificate({ id }: { id: string }) {
  const statuses = useQuery(soldierStatusQuery(id))
  const certifications = useQuery(certificationsQuery).data ?? []
  const inForce = statuses.data?.filter(({ status, suspended }) => status === 'certified' && !suspended)
  return (
    <Page
      title="Certificate"
      answer={inForce && (inForce.length > 0 ? 'A certificate of what?' : 'No certification is in force today.')}
      why="A certificate is made of what is in force today and not suspended."
      error={inForce ? null : statuses.error}
      onRetry={statuses.refetch}
    >
      {inForce?.map(({ certification }) => (
        <p key={certification}>
          <Link href={addressTo(paths.certificate, { id, certification })}>
            {certificationTitle(certifications, certification)}
          </Link>
        </p>
      ))}
      <p>
        <Link href={addressTo(paths.candidate, { id })}>Back to the soldier</Link>
      </p>
    </Page>
  )
}
