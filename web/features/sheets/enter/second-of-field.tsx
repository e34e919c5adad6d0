import { useInfiniteQuery } from '@tanstack/react-query'
import { sheetsQuery } from '../../../api/sheets/sheets.ts'
import { SelectField } from '../../../ui/field.tsx'
import { formatTime } from '../../../words/format-time.ts'
import type { Draft } from './draft.ts'
import { firstGradings } from './first-gradings.ts'

interface SecondOfFieldProps {
  draft: Draft
  /** Code of the standard on the sheet. */
  standard: string
  timeZone: string
  onSecondOf: (id: string) => void
}

/**
 * Two graders may have graded one attempt on paper; both sheets are entered. The second names the first, and shows who graded it
 * and when, not how it went: whoever types it is as blind to it as its grader was.
 */
export function SecondOfField({ draft, standard, timeZone, onSecondOf }: SecondOfFieldProps) {
  const candidateId = draft.candidate?.id ?? ''
  const { data } = useInfiniteQuery({
    ...sheetsQuery({ soldierId: candidateId, purpose: 'test' }),
    enabled: candidateId !== '' && draft.amends === null && draft.purpose === 'test',
  })
  const firsts = firstGradings(data?.pages.flatMap(({ items }) => items) ?? [], draft, standard)
  if (draft.amends !== null || draft.purpose !== 'test' || firsts.length === 0) return null
  return (
    <SelectField
      label="One attempt, two graders"
      className="enter-sponsor"
      hint="Of two sheets of one attempt only the first counts; the second is compared with it."
      value={firsts.some(({ id }) => id === draft.secondOf) ? draft.secondOf : ''}
      onChange={(event) => onSecondOf(event.target.value)}
    >
      <option value="">A test of its own</option>
      {firsts.map(({ id, body, people }) => (
        <option key={id} value={id}>
          Second grader of the test of {formatTime(body.startedAt, timeZone)},{' '}
          {people[body.graderId] ?? 'another grader'}
        </option>
      ))}
    </SelectField>
  )
}
