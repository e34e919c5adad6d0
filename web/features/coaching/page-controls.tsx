import { Link } from 'wouter'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { SelectField } from '../../ui/field.tsx'
import type { Candidate } from './use-candidate.ts'

/** Which standard is shown, its study sheet, and printing. */
export function PageControls({ candidate, onChoose }: { candidate: Candidate; onChoose: (standard: string) => void }) {
  const { soldier, taken, code, titles } = candidate
  return (
    <>
      {taken.length > 1 && (
        <SelectField label="Standard" value={code} onChange={(event) => onChoose(event.target.value)}>
          {taken.map((standard) => (
            <option key={standard} value={standard}>
              {titles.standard(standard)}
            </option>
          ))}
        </SelectField>
      )}
      {code !== '' && <Link href={addressTo(paths.study, { id: code, candidate: soldier.id })}>Study sheet</Link>}
      <Button className="push" onClick={() => window.print()}>
        Print
      </Button>
    </>
  )
}
