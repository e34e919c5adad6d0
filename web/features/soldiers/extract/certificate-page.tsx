import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { certificateQuery } from '../../../api/soldiers/extracts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { FactLines } from '../../../ui/fact-lines.tsx'
import { Page } from '../../../ui/page.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { formatDayWithYear } from '../../../words/format-day.ts'
import { ChooseCertificate } from './choose-certificate.tsx'
import './extract.css'

/** A certificate of a certification in force, one sheet of paper. */
export default function CertificatePage({ id }: { id: string }) {
  const [{ certification }] = useFilters(['certification'])
  return certification === '' ? <ChooseCertificate id={id} /> : <Sheet id={id} certification={certification} />
}

function Sheet({ id, certification }: { id: string; certification: string }) {
  const { data, error, refetch } = useQuery(certificateQuery(id, certification))
  if (!data) return <Page title="Certificate" error={error} onRetry={refetch} />
  const { soldier, title, unit } = data
  return (
    <div className="certificate-page">
      <Page
        title={`Certificate of ${soldier.familyName}`}
        compact
        answer={
          <bdi>{`The certificate of ${soldier.grade} ${soldier.familyName}, as of ${formatDayWithYear(data.asOf)}.`}</bdi>
        }
        why="One page, letter or A4. That it was made is on record."
        controls={
          <>
            <Button kind="main" onClick={() => window.print()}>
              Print
            </Button>
            <Link href={addressTo(paths.candidate, { id })}>Back to the soldier</Link>
          </>
        }
      >
        <article className="certificate" aria-label="Certificate">
          <p className="certificate-unit">
            <bdi>{unit}</bdi>
          </p>
          <h2 className="certificate-name">
            <bdi>{`${soldier.givenName} ${soldier.familyName}`}</bdi>
          </h2>
          <p className="certificate-grade">{soldier.grade}</p>
          <p className="certificate-title">
            is certified by test: <b>{title}</b>
          </p>
          <FactLines
            facts={[
              ['Awarded', formatDayWithYear(data.awardedOn)],
              ['Valid through', formatDayWithYear(data.validThrough)],
              ['As of', formatDayWithYear(data.asOf)],
              [
                'Record number',
                <span key="number" className="certificate-number">
                  {data.number}
                </span>,
              ],
            ]}
          />
          <div className="certificate-signatures">
            <span>Signature, name and grade</span>
            <span>Date</span>
          </div>
          <p className="certificate-foot">
            A training record, not a medical or disciplinary finding. It says what was in force on the day above; the
            training office tells by the record number whether it still is.
          </p>
        </article>
      </Page>
    </div>
  )
}
