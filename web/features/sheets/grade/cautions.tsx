import { useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { openDay } from '../../../device/store/day-store.ts'
import { cautionsOf } from '../../../domain/sheets/grading/start-choice.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Page } from '../../../ui/page.tsx'
import './grade.css'

/** What holds for every test, whatever a standard says. */
const ALWAYS = [
  'Edged weapons are handled at the unit’s own safety distance. On “cease” everyone stops, at once.',
  'Heat, long standing and locked knees make people faint. Water, shade and medical help are planned for.',
  'Unit procedure, the safety officer and licensed medical staff come before anything this tool says.',
]

interface CautionsProps {
  accountId: string
  on: string
  standards: readonly Pick<Standard, 'cautions'>[]
}

/** Read and confirmed once a day, before the first sheet of that day. */
export function Cautions({ accountId, on, standards }: CautionsProps) {
  const [error, setError] = useState<Error | null>(null)
  return (
    <Page
      title="Open the day"
      answer="Before the first command."
      why="Read this on the field, with the people who are there."
    >
      <ul className="cautions">
        {[...cautionsOf(standards), ...ALWAYS].map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <Button
        kind="main"
        className="cautions-confirm"
        onClick={() => openDay(accountId, on, new Date()).catch((failure: Error) => setError(failure))}
      >
        All of this is in place: open the day
      </Button>
      {error && <Failure error={error} />}
    </Page>
  )
}
