import { useMutation } from '@tanstack/react-query'
import { useLocation } from 'wouter'
import type { Import } from '#contract/imports/imports.ts'
import { sendImport } from '../../api/imports/imports.ts'
import { paths } from '../../paths.ts'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { keepSent, sentFile } from './sent-files.ts'

/** Lets another sheet of the workbook be read, as long as the window still holds the file. */
export function SheetChoice({ job }: { job: Import }) {
  const [, go] = useLocation()
  const file = sentFile(job.id)
  const reading = useMutation({
    mutationFn: (sheet: string) => sendImport(file!, sheet),
    onSuccess: (sent) => {
      keepSent(sent.id, file!)
      go(paths.importFile.replace(':id', sent.id))
    },
  })
  if (!file || job.sheetNames.length < 2) return null
  return (
    <div className="import-sheet">
      <SelectField
        label="Sheet of the workbook"
        value={job.sheetName ?? ''}
        disabled={reading.isPending}
        onChange={(event) => reading.mutate(event.target.value)}
      >
        {job.sheetNames.map((name) => (
          <option key={name}>{name}</option>
        ))}
      </SelectField>
      {reading.error && <Failure error={reading.error} />}
    </div>
  )
}
