import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Page } from '../../../ui/page.tsx'
import { capital } from '../../../words/format-number.ts'
import { throwawaySheet } from './throwaway-sheet.ts'
import { TrialField } from './trial-field.tsx'

/** A practice test on a draft, as saved last, on whatever phone one is signed in on. */
export default function TryPage({ id }: { id: string }) {
  const query = useQuery(standardsQuery)
  const standard = query.data?.find((one) => one.id === id)
  const [arm, setArm] = useState<string | null>()
  const [times, setTimes] = useState(0)
  const back = addressTo(paths.draft, { id })
  if (!standard || (arm === undefined && standard.arms.length !== 0)) {
    return (
      <Page
        title="Practice test on a draft"
        answer={
          standard ? `With which arm is ${standard.title} tried out?` : query.data && 'There is no such draft here.'
        }
        why={
          standard ? (
            'The draft as it was saved last. Nothing of the test is stored.'
          ) : (
            <Link href={paths.standards}>All standards</Link>
          )
        }
        error={query.error}
        onRetry={query.refetch}
        controls={
          <>
            {standard?.arms.map((one) => (
              <Button key={one} kind="main" onClick={() => setArm(one)}>
                {capital(one)}
              </Button>
            ))}
            {standard && <Link href={back}>Back to the draft</Link>}
          </>
        }
      />
    )
  }
  return <Trial key={times} standard={standard} arm={arm ?? null} leaveTo={back} onAgain={() => setTimes(times + 1)} />
}

interface TrialProps {
  standard: Standard
  arm: string | null
  leaveTo: string
  onAgain: () => void
}

function Trial({ standard, arm, leaveTo, onAgain }: TrialProps) {
  const [keeper] = useState(() => throwawaySheet(standard, arm))
  return <TrialField standard={standard} keeper={keeper} leaveTo={leaveTo} onAgain={onAgain} />
}
