import { lazy, Suspense } from 'react'
import type { Retest } from '#contract/standards/certifications.ts'
import { DueMarks } from '../../../charts/due-marks.tsx'
import { Section } from '../../../ui/section.tsx'

const BacklogPart = lazy(() => import('./backlog-part.tsx'))

interface BacklogPicturesProps {
  list: readonly Retest[]
  asOf: string
  unitId: string
  today: string
}

/** The backlog in two pictures: when its retests are due, and how it grew. */
export function BacklogPictures({ list, asOf, unitId, today }: BacklogPicturesProps) {
  return (
    <div className="columns halves">
      <Section title="Due" note="a diamond each, over the week it is due in; solid is past due">
        {list.length === 0 && <p className="muted">Nothing is due.</p>}
        {list.length > 0 && <DueMarks due={list.map(({ due }) => due)} today={asOf} />}
      </Section>
      <Section title="Backlog over 18 months" note="open at the end of each month, and now">
        <Suspense fallback={<div className="part" aria-busy="true" />}>
          <BacklogPart asOf={asOf} unitId={unitId} today={today} />
        </Suspense>
      </Section>
    </div>
  )
}
