import { useMutation, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { DateAnswer, Import, ImportKind } from '#contract/imports/imports.ts'
import { checkImport, importColumnsQuery } from '../../api/imports/imports.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { ColumnsTable } from './columns-table.tsx'
import { DateQuestions } from './date-questions.tsx'
import { KIND_NAMES, KINDS } from './format-import.ts'

interface ColumnsFormProps {
  job: Import
  onBegun: () => void
}

/** What the file holds and what its columns are taken for; then it is checked. */
export function ColumnsForm({ job, onBegun }: ColumnsFormProps) {
  const [kind, setKind] = useState<ImportKind>(job.kind)
  const [chosen, setChosen] = useState<Record<string, number> | undefined>()
  const [dates, setDates] = useState<Record<string, DateAnswer>>({})
  const query = useQuery(importColumnsQuery(job.id, kind, chosen))
  const columns = query.data?.kind === kind ? query.data : undefined
  const checking = useMutation({
    mutationFn: () => checkImport(job.id, { kind, dates, answers: {}, ...(chosen && { mapping: chosen }) }),
    onSuccess: onBegun,
  })
  const answers = {
    ...Object.fromEntries((columns?.questions ?? []).flatMap(({ key, answer }) => (answer ? [[key, answer]] : []))),
    ...dates,
  }
  const choose = (key: string, index: number | null) => {
    const mapping = Object.fromEntries(
      (columns?.columns ?? []).flatMap((one) =>
        one.index === null || one.index === index ? [] : [[one.key, one.index]],
      ),
    )
    delete mapping[key]
    setChosen(index === null ? mapping : { ...mapping, [key]: index })
  }
  return (
    <Section title="What it holds">
      <form
        className="import-form"
        onSubmit={(event) => {
          event.preventDefault()
          setDates(answers)
          checking.mutate()
        }}
      >
        <SelectField
          label="Kind"
          value={kind}
          hint={KINDS[kind].what}
          onChange={(event) => {
            setKind(event.target.value as ImportKind)
            setChosen(undefined)
          }}
        >
          {KIND_NAMES.map((name) => (
            <option key={name} value={name}>
              {KINDS[name].name}
            </option>
          ))}
        </SelectField>
        {job.format !== 'json' && columns && <ColumnsTable columns={columns} onChoose={choose} />}
        {columns && (
          <DateQuestions
            questions={columns.questions}
            answers={answers}
            onAnswer={(key, answer) => setDates({ ...dates, [key]: answer })}
          />
        )}
        {query.error && <Failure error={query.error} onRetry={query.refetch} />}
        {checking.error && <Failure error={checking.error} />}
        <p>
          <Button
            kind={job.state === 'checked' ? 'plain' : 'main'}
            type="submit"
            disabled={!columns || checking.isPending}
          >
            {job.state === 'checked' ? 'Check it again' : 'Check every row'}
          </Button>{' '}
          <span className="import-aside">Nothing is stored by it.</span>
        </p>
      </form>
    </Section>
  )
}
