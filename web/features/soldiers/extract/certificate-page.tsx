import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { certificateQuery } from '../../../api/soldiers/extracts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { FactLines } from '../../../ui/fact-lines.tsx'
import { Page } from '../../../ui/page.tsx'
import { Qr } from '../../../ui/qr.tsx'
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
          <Foot signed={data.signed} address={`${data.checkAddress ?? location.origin}${paths.verify}`} />
        </article>
      </Page>
    </div>
  )
}

/** Longer ones make squares that a camera can't tell apart on paper. */
const LONGEST_CODE = 1600

/** How to check it: by the code where there is one, and by the record number. */
function Foot({ signed, address }: { signed: string | null; address: string }) {
  const code = `${address}#${signed}`
  const hasCode = signed !== null && code.length <= LONGEST_CODE
  return (
    <div className="certificate-foot">
      {hasCode && <Qr text={code} label="QR code of the signed certificate" long />}
      <div>
        {hasCode && (
          <p>
            <b>To check it, scan the code.</b> It opens <span className="certificate-address">{address}</span>, which
            says whether the unit signed this and whether it is still in force.
          </p>
        )}
        <p>
          A training record, not a medical or disciplinary finding. It says what was in force on the day above; the
          training office tells by the record number whether it still is.
        </p>
      </div>
    </div>
  )
}
