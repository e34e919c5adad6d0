import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import { proposeDuplicate } from '../../api/sheets/duplicates.ts'
import { invalidateSheets } from '../../api/sheets/sheets.ts'
import { addressTo, paths } from '../../paths.ts'
import { ReasonedForm } from '../../ui/reasoned-form.tsx'
import { Section } from '../../ui/section.tsx'

interface SetAsideProps {
  id: string
  /** The sheet of the same test that stands. */
  stands: string
  mayAmend: boolean
}

/** Which sheet this one duplicates, and the way back, which takes a second person as well. */
export function SetAside({ id, stands, mayAmend }: SetAsideProps) {
  const client = useQueryClient()
  const [isProposed, setProposed] = useState(false)
  const takeBack = async (_: 'back', reason: string) => {
    await proposeDuplicate(id, null, reason)
    setProposed(true)
    await invalidateSheets(client)
  }
  return (
    <Section title="Set aside as a duplicate">
      <p>
        It is kept as it came in. <Link href={addressTo(paths.sheet, { id: stands })}>The sheet that stands</Link>
      </p>
      {mayAmend &&
        (isProposed ? (
          <p role="status">
            Proposed. It is judged again once <Link href={paths.contested}>a second person confirms it</Link>.
          </p>
        ) : (
          <ReasonedForm
            label="If it was a test of its own: reason, kept with the sheet"
            choices={[{ value: 'back', text: 'Judge it again' }]}
            onChoose={takeBack}
          />
        ))}
    </Section>
  )
}
