import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Link, useLocation } from 'wouter'
import { importsQuery, sendImport, templateAddress } from '../../api/imports/imports.ts'
import { paths } from '../../paths.ts'
import { Disclosure } from '../../ui/disclosure.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatMoment } from '../../words/format-moment.ts'
import { today as todayIn } from '../../words/today.ts'
import { HandTable } from './by-hand/hand-table.tsx'
import { dropKeptRows } from './by-hand/kept-rows.ts'
import { PasteField } from './by-hand/paste-field.tsx'
import { DropField } from './drop-field.tsx'
import { formatImport, KIND_NAMES, KINDS } from './format-import.ts'
import { keepSent } from './sent-files.ts'
import './import.css'

/** Where a unit moves in: send a file, go on with one, or take a template to fill in. */
export default function ImportPage() {
  const client = useQueryClient()
  const [, go] = useLocation()
  const [filters] = useFilters(['rows'])
  const files = useQuery(importsQuery)
  const sending = useMutation({
    mutationFn: (file: File) => sendImport(file).then((sent) => ({ file, sent })),
    onSuccess: ({ file, sent }) => {
      keepSent(sent.id, file)
      dropKeptRows(client)
      client.invalidateQueries({ queryKey: ['imports'] })
      go(paths.importFile.replace(':id', sent.id))
    },
  })
  const sendRows = (text: string, name: string) => sending.mutate(new File([text], name))
  const items = files.data?.items
  const today = todayIn(null)
  return (
    <Page
      title="Import a file"
      answer={items && 'Bring what is on paper and in spreadsheets.'}
      why="Begin with the standards and the roster; then awards, sponsorships, graders and sheets."
      error={items ? null : files.error}
      onRetry={files.refetch}
    >
      <DropField busy={sending.isPending} onFile={(file) => sending.mutate(file)} />
      {sending.error && <Failure error={sending.error} />}
      <Section title="Without a file" note="Checked, asked about and confirmed like a file.">
        <PasteField busy={sending.isPending} onRows={sendRows} />
        <Disclosure
          title="Write the rows by hand"
          note="People, who sponsors whom, who may grade."
          open={filters.rows !== ''}
        >
          <HandTable busy={sending.isPending} onRows={sendRows} />
        </Disclosure>
      </Section>
      <Section title="Files sent today" note="Removed a day after they were sent; what was stored stays.">
        {items?.length === 0 ? (
          <Empty>
            <p>No file yet. Take a template below, or send the spreadsheet you have: its columns can be matched.</p>
          </Empty>
        ) : (
          <Table
            caption="Files sent"
            rows={items ?? []}
            rowKey={({ id }) => id}
            columns={[
              {
                head: 'File',
                cell: (file) => <Link href={paths.importFile.replace(':id', file.id)}>{file.fileName}</Link>,
              },
              { head: 'Kind', cell: ({ kind }) => KINDS[kind].name },
              { head: 'Sent', cell: ({ createdAt }) => formatMoment(createdAt, today), tight: true },
              { head: 'How it stands', cell: formatImport, bare: true },
            ]}
          />
        )}
      </Section>
      <Section
        title="Templates"
        note="With one row as an example, or with all that is here: importing that again changes nothing."
      >
        <ul className="import-templates">
          {KIND_NAMES.map((kind) => (
            <li key={kind}>
              <strong>{KINDS[kind].name}</strong>
              <span>{KINDS[kind].what}</span>
              <span className="import-template-ways">
                <a href={templateAddress(kind, 'xlsx')} download>
                  {KINDS[kind].name} as .xlsx
                </a>
                <a href={templateAddress(kind, 'csv')} download>
                  as CSV
                </a>
                {kind !== 'results' && (
                  <a href={templateAddress(kind, 'xlsx', 'yes')} download>
                    with what is here
                  </a>
                )}
              </span>
            </li>
          ))}
        </ul>
      </Section>
    </Page>
  )
}
