import { lazy, Suspense, useState } from 'react'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import { useIsImpartial } from '../../api/use-impartial.ts'
import { useMay } from '../../api/use-may.ts'
import { Button } from '../../ui/button.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDay } from '../../words/format-day.ts'

const SponsorDialog = lazy(() => import('./sponsor-dialog.tsx'))

type Sponsorship = SoldierDetail['sponsors'][number]

/** Who sponsors the soldier; the office ends it and names another. */
export function SponsorControl({ soldier, today }: { soldier: SoldierDetail; today: string }) {
  const isImpartial = useIsImpartial(soldier, today)
  const mayManage = useMay('manage-people') && isImpartial
  const [asked, setAsked] = useState<Sponsorship | 'new' | null>(null)
  const current = soldier.sponsors.filter(({ to }) => to === null || to >= today)
  return (
    <Section title="Sponsor">
      {current.length === 0 && <p className="muted">Nobody sponsors this soldier. A test without a sponsor is held.</p>}
      <ul>
        {current.map((one) => (
          <li key={one.id}>
            <bdi>
              <b>{one.sponsorName}</b>
            </bdi>{' '}
            <span className="muted">
              from {formatDay(one.from, today)}
              {one.to && ` to ${formatDay(one.to, today)}`}
            </span>{' '}
            {mayManage && (
              <Button kind="quiet" className="no-print" onClick={() => setAsked(one)}>
                End it
              </Button>
            )}
          </li>
        ))}
      </ul>
      {mayManage && (
        <p className="no-print">
          <Button onClick={() => setAsked('new')}>Name a sponsor</Button>
        </p>
      )}
      {asked !== null && (
        <Suspense>
          <SponsorDialog
            soldier={soldier}
            ending={asked === 'new' ? null : asked}
            today={today}
            onClose={() => setAsked(null)}
          />
        </Suspense>
      )}
    </Section>
  )
}
