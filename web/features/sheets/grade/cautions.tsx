import { useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { openDay } from '../../../device/store/day-store.ts'
import { cautionsOnce } from '../../../domain/sheets/format-cautions.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Page } from '../../../ui/page.tsx'
import './grade.css'

interface CautionsProps {
  accountId: string
  on: string
  standards: readonly Pick<Standard, 'cautions' | 'arms'>[]
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
        {cautionsOnce(standards).map((caution) => (
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
