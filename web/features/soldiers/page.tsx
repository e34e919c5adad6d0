import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { soldierQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { useIsImpartial } from '../../api/use-impartial.ts'
import { useMay } from '../../api/use-may.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { today as todayIn } from '../../words/today.ts'
import { unitZone } from '../../words/unit-zone.ts'
import { AbsencesSection } from './absences-section.tsx'
import { ChangesSection } from './changes-section.tsx'
import { formatDays, formatPerson } from './format-people.ts'
import { MergeSection } from './merge-section.tsx'
import { NamesForm } from './names-form.tsx'
import './people.css'

/** One person by period: where, in which grade, with which arms; absences; what was entered and its corrections. */
export default function PersonPage({ id }: { id: string }) {
  const [said, setSaid] = useState('')
  const [naming, setNaming] = useState(false)
  const query = useQuery(soldierQuery(id))
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const carries = carriesArms(useQuery(listsQuery).data)
  const mayManage = useMay('manage-people')
  const today = todayIn()
  const soldier = query.data
  if (!soldier) {
    return <Page title="Person" error={query.error} onRetry={query.refetch} />
  }
  const certifications = certificationsOn(terms, today)
  const mayChange = mayManage && soldier.removedAt === null
  return (
    <Page
      title={listName(soldier)}
      answer={formatPerson(soldier, units, today, unitZone())}
      why={
        <>
          {soldier.rosterNumber} <bdi>{listName(soldier)}</bdi>.{' '}
          <Link href={addressTo(paths.candidate, { id: soldier.id })}>Attempts and certifications</Link>
        </>
      }
      controls={
        mayChange && (
          <>
            <Button onClick={() => setNaming(!naming)}>Correct number or names</Button>
            {soldier.left && (
              <Link href={addressTo(paths.removePerson, { id: soldier.id })} className="button">
                Remove personal data …
              </Link>
            )}
          </>
        )
      }
    >
      {said && (
        <Notice kind="good">
          <p>{said}</p>
        </Notice>
      )}
      {naming && (
        <Section title="Number and names">
          <NamesForm
            soldier={soldier}
            onCancel={() => setNaming(false)}
            onDone={(text) => {
              setNaming(false)
              setSaid(text)
            }}
          />
        </Section>
      )}
      <div className="columns">
        <Section title="By period" note="the latest first">
          <ul className="people-list">
            {[...soldier.periods].reverse().map(({ from, through, unitId, grade, arms }) => (
              <li key={from}>
                <span className="people-when">{formatDays(from, through, today)}</span>
                <span>
                  <b>{grade}</b>, {fullUnitName(units, unitId)}
                </span>
                {(carries || arms.length > 0) && <span className="muted">{arms.join(', ') || 'no arms'}</span>}
              </li>
            ))}
          </ul>
        </Section>
        {soldier.removedAt === null && <AbsencesSection soldierId={soldier.id} today={today} mayManage={mayChange} />}
      </div>
      {mayChange && <Entered {...{ soldier, units, certifications, today }} onSaid={setSaid} />}
    </Page>
  )
}

/** What was entered about somebody, and their other entries, to be changed by who is impartial to them. */
function Entered(props: React.ComponentProps<typeof ChangesSection> & { soldier: SoldierDetail }) {
  const { soldier, units, today, onSaid } = props
  const isImpartial = useIsImpartial(soldier, today)
  if (!isImpartial) {
    return (
      <Section title="What was entered">
        <p className="muted">About yourself and whom you coach somebody else of the office enters it.</p>
      </Section>
    )
  }
  return (
    <>
      <ChangesSection {...props} />
      <MergeSection {...{ soldier, units, today, onSaid }} />
    </>
  )
}
