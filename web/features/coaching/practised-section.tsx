import { lazy, Suspense } from 'react'
import { Link } from 'wouter'
import { measuresToDrill } from '../../domain/coaching/format-drill.ts'
import { addressTo, gradePaths, paths } from '../../paths.ts'
import { PracticeSection } from './practice-section.tsx'
import type { Candidate } from './use-candidate.ts'

const PracticeHere = lazy(() =>
  import('../../device/sheet/practice-here.tsx').then(({ PracticeHere }) => ({ default: PracticeHere })),
)
const OnThisPhone = lazy(() =>
  import('../../device/sheet/on-this-phone.tsx').then(({ OnThisPhone }) => ({ default: OnThisPhone })),
)

/** Practice, with what the sponsor's phone has not sent yet, and the ways to more of it for whoever coaches. */
export function PractisedSection({
  candidate: { soldier, code, standards, coaching, isSponsor, today },
  accountId,
  mayCoach,
}: {
  candidate: Candidate
  accountId: string | undefined
  mayCoach: boolean
}) {
  return (
    <PracticeSection
      candidateId={soldier.id}
      standard={code}
      standards={standards}
      today={today}
      unsent={
        isSponsor && accountId ? (
          <Suspense>
            <PracticeHere accountId={accountId} of={soldier.id} />
            <OnThisPhone accountId={accountId} unsentOf={soldier.id} />
          </Suspense>
        ) : null
      }
      more={
        mayCoach && (
          <>
            {isSponsor && (
              <Link
                href={addressTo(gradePaths.start, {
                  coached: soldier.id,
                  standard: code,
                  measures: measuresToDrill(coaching?.drill?.standard === code ? coaching.drill.items : []),
                })}
              >
                Practise
              </Link>
            )}{' '}
            <Link href={addressTo(paths.enter, { purpose: 'practice', candidate: soldier.id })}>
              Enter practice from paper
            </Link>
          </>
        )
      }
    />
  )
}
