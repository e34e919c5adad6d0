import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useLocation } from 'wouter'
import { cancelImport, importQuery, isUnderWay, removeImport } from '../../api/imports/imports.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Disclosure } from '../../ui/disclosure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { ColumnsForm } from './columns-form.tsx'
import { formatImport, KINDS } from './format-import.ts'
import { OutcomePart } from './outcome-part.tsx'
import { ProgressLine } from './progress-line.tsx'
import { QuestionsForm } from './questions-form.tsx'
import { SheetChoice } from './sheet-choice.tsx'
import './import.css'

/** One file on its way into the record: its columns, what becomes of its rows, and storing it. */
export default function ImportFilePage({ id }: { id: string }) {
  const client = useQueryClient()
  const [, go] = useLocation()
  const query = useQuery(importQuery(id))
  const job = query.data
  const refresh = () => client.invalidateQueries({ queryKey: ['imports', id] })
  const cancelling = useMutation({ mutationFn: () => cancelImport(id), onSettled: refresh })
  const removing = useMutation({
    mutationFn: () => removeImport(id),
    onSuccess: () => {
      client.removeQueries({ queryKey: ['imports', id] })
      client.invalidateQueries({ queryKey: ['imports'] })
      go(paths.import)
    },
  })
  return (
    <Page
      title="Import a file"
      answer={job && formatImport(job)}
      why={
        job &&
        `${job.fileName}${job.sheetName ? `, sheet ${job.sheetName}` : ''}: ${KINDS[job.kind].name.toLowerCase()}.`
      }
      error={job ? null : query.error}
      onRetry={query.refetch}
      controls={
        job &&
        !isUnderWay(job) && (
          <Button kind="quiet" disabled={removing.isPending} onClick={() => removing.mutate()}>
            {job.state === 'stored' ? 'Done; remove the file' : 'Remove the file'}
          </Button>
        )
      }
    >
      {job?.problem && (
        <Notice kind="bad">
          <p>{job.problem}</p>
        </Notice>
      )}
      {job && isUnderWay(job) && (
        <ProgressLine job={job} cancelling={cancelling.isPending} onCancel={() => cancelling.mutate()} />
      )}
      {job?.state === 'checked' && job.questions.length > 0 && (
        <QuestionsForm
          key={job.questions.map(({ key, answer }) => `${key} ${answer}`).join()}
          job={job}
          onBegun={refresh}
        />
      )}
      {job?.counts && !isUnderWay(job) && <OutcomePart job={job} onBegun={refresh} />}
      {job && !isUnderWay(job) && job.state !== 'stored' && (
        <>
          <SheetChoice job={job} />
          {job.state === 'checked' ? (
            <Disclosure
              title="What it holds, and how its columns are read"
              note="Change something, and check it again."
            >
              <ColumnsForm key={job.kind} job={job} onBegun={refresh} />
            </Disclosure>
          ) : (
            <ColumnsForm key={job.kind} job={job} onBegun={refresh} />
          )}
        </>
      )}
    </Page>
  )
}
