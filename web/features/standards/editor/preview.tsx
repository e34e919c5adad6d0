import { type ComponentType, Suspense, useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { Button } from '../../../ui/button.tsx'
import { SelectField } from '../../../ui/field.tsx'

/** What a grader will have in hand; put in from outside, for they belong to grading. */
export interface Sheets {
  readonly Phone: ComponentType<{ standard: Standard; arm: string | null; at: number }>
  readonly Paper: ComponentType<{ standard: Standard; arm: string | undefined }>
}

interface PreviewProps extends Sheets {
  standard: Standard
  /** The call to show on the phone. */
  at: number
}

/** Beside the fields: the sheet on the phone, to be played with, or on paper. */
export function Preview({ standard, at, Phone, Paper }: PreviewProps) {
  const [which, setWhich] = useState<'phone' | 'paper'>('phone')
  const [chosen, setArm] = useState('')
  const arm = standard.arms.includes(chosen) ? chosen : standard.arms[0]
  return (
    <aside className="draft-preview" aria-label="As a grader will have it">
      <div className="draft-buttons">
        <Button aria-pressed={which === 'phone'} onClick={() => setWhich('phone')}>
          On the phone
        </Button>
        <Button aria-pressed={which === 'paper'} onClick={() => setWhich('paper')}>
          On paper
        </Button>
        {standard.arms.length > 1 && (
          <SelectField label="Arm" value={arm} onChange={(event) => setArm(event.target.value)}>
            {standard.arms.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </SelectField>
        )}
      </div>
      <Suspense fallback={null}>
        {which === 'phone' ? (
          <div className="draft-phone">
            <Phone standard={standard} arm={arm ?? null} at={at} />
          </div>
        ) : (
          <div className="draft-paper">
            <Paper standard={standard} arm={arm} />
          </div>
        )}
      </Suspense>
    </aside>
  )
}
