import { useEffect, useRef } from 'react'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import type { Draft, Person } from './draft.ts'
import { sponsorOfRecord } from './sponsor-of-record.ts'

/**
 * The sponsor of record comes onto the sheet with the candidate and goes with them; one typed by hand stays. Out: who is of
 * record on the sheet's day; undefined where nobody is, or it is not known yet.
 */
export const useSponsorOfRecord = (
  candidate: SoldierDetail | undefined,
  { day, sponsor, amends }: Pick<Draft, 'day' | 'sponsor' | 'amends'>,
  onSponsor: (sponsor: Person | null) => void,
) => {
  const ofRecord = sponsorOfRecord(candidate, day)
  const brought = useRef<string | null>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when another sponsor is of record
  useEffect(() => {
    if (amends !== null) return
    if (ofRecord && sponsor?.id === ofRecord.sponsorId) brought.current = ofRecord.sponsorId
    const isTyped = sponsor !== null && sponsor.id !== brought.current
    if (isTyped || sponsor?.id === ofRecord?.sponsorId) return
    brought.current = ofRecord?.sponsorId ?? null
    onSponsor(ofRecord ? { id: ofRecord.sponsorId, text: ofRecord.sponsorName } : null)
  }, [candidate?.id, ofRecord?.sponsorId])
  return ofRecord
}
