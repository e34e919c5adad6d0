import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { extractQuery } from '../../../api/soldiers/extracts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Page } from '../../../ui/page.tsx'
import { saveFile } from '../../../ui/save-file.ts'
import { EntryList } from './entry-list.tsx'
import { formatName, formatValue } from './format-extract.ts'
import './extract.css'

/** Everything that is held about one soldier, to print, and as one file. */
export default function ExtractPage({ id }: { id: string }) {
  const { data, error, refetch } = useQuery(extractQuery(id))
  if (!data) return <Page title="Record extract" error={error} onRetry={refetch} />
  const { familyName, givenName, rosterNumber, heightCm } = data.soldier
  const lists = Object.entries(data.lists)
  const empty = lists.filter(([, rows]) => rows.length === 0).map(([name]) => formatName(name).toLowerCase())
  const file = () =>
    saveFile(
      `record-extract-${rosterNumber}-${data.madeAt.slice(0, 10)}.json`.replace(/[^\w.-]+/g, '-'),
      new Blob([JSON.stringify(data, null, 2)], { type: 'application/json' }),
    )
  return (
    <Page
      title={`Record extract of ${familyName}`}
      compact
      answer={
        <bdi>
          What is on file about {familyName}, {givenName} ({rosterNumber})
        </bdi>
      }
      why={`Made ${formatValue(data.madeAt)}; that it was made is on record.`}
      controls={
        <>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
          <Button onClick={file}>Save as JSON</Button>
          <Link href={addressTo(paths.candidate, { id })}>Back to the soldier</Link>
        </>
      }
    >
      <p className="extract-height">{heightCm === null ? 'No height is kept.' : `Height: ${heightCm} cm.`}</p>
      {lists.map(([name, rows]) => rows.length > 0 && <EntryList key={name} name={name} rows={rows} />)}
      {empty.length > 0 && <p className="extract-empty">Nothing is on file under: {empty.join(', ')}.</p>}
      <p className="caution">
        A result is a training record, not a medical or disciplinary finding. How long records are kept, and what may be
        given to whom, is for the law and unit policy to say.
      </p>
    </Page>
  )
}
