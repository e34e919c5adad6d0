import { Link } from 'wouter'
import { useIsImpartial } from '../../api/use-impartial.ts'
import { useMay } from '../../api/use-may.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { addressTo, paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { SponsorControl } from './sponsor-control.tsx'
import type { Candidate } from './use-candidate.ts'

/** Who it is: number, unit, arms, and who sponsors them. */
export function SoldierSection({ soldier, titles, certifications, today }: Candidate) {
  const asksForArms = certifications.some(({ arms }) => arms.length > 0)
  return (
    <div>
      <Section title="Soldier">
        <p>
          <b>
            <bdi>{listName(soldier)}</bdi>
          </b>{' '}
          <span className="muted">{soldier.rosterNumber}</span>
        </p>
        <p>
          {soldier.unitId
            ? titles.unit(soldier.unitId)
            : `Left on ${soldier.left ? titles.day(soldier.left.on) : 'an earlier day'}`}
        </p>
        {(asksForArms || soldier.arms.length > 0) && (
          <p className="muted">Carries {soldier.arms.join(', ') || 'no arm on record'}</p>
        )}
        {soldier.unitId && <SuspendLink soldier={soldier} today={today} />}
      </Section>
      <SponsorControl soldier={soldier} today={today} />
    </div>
  )
}

/** For whoever suspends, and is impartial to this soldier. */
function SuspendLink({ soldier, today }: Pick<Candidate, 'soldier' | 'today'>) {
  const maySuspend = useMay('suspend')
  const isImpartial = useIsImpartial(soldier, today)
  if (!maySuspend || !isImpartial) return null
  return (
    <p className="no-print">
      <Link href={addressTo(paths.suspensions, { soldier: soldier.id })}>Suspend, or lift a suspension</Link>
    </p>
  )
}
