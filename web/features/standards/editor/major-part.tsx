import { changeMajor } from '../../../domain/standards/edits/measure-edits.ts'
import { namedLines } from '../../../domain/standards/edits/named-lines.ts'
import { TextField } from '../../../ui/field.tsx'
import { problemAt } from './draft-problems.ts'
import type { Editing } from './editing.ts'
import { LinesField, TextLines } from './lines-field.tsx'

/** A major measure: what is looked at all through the test, and which faults end it. */
export function MajorPart({ draft, problems, edit, at }: Editing & { at: number }) {
  const major = draft.majors[at]!
  const { code } = major
  const pointer = `/majors/${at}`
  return (
    <>
      <TextField
        label="Title"
        maxLength={400}
        value={major.title}
        error={problemAt(problems, `${pointer}/title`)}
        onChange={(event) => edit(changeMajor(draft, code, { title: event.target.value }), `${code} title`)}
      />
      <TextLines
        label="Looked at, one a line"
        rows={3}
        value={major.criteria}
        error={problemAt(problems, `${pointer}/criteria`, true)}
        onValue={(criteria) => edit(changeMajor(draft, code, { criteria }), `${code} criteria`)}
      />
      <LinesField
        label="Faults, one a line"
        value={major.faults}
        error={problemAt(problems, `${pointer}/faults`, true)}
        toLine={({ title }) => title}
        read={namedLines}
        onValue={(faults) => edit(changeMajor(draft, code, { faults }), `${code} faults`)}
      />
    </>
  )
}
