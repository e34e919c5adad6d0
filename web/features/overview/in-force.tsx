import { Link } from 'wouter'
import type { Certification, Readiness } from '#contract/certifications.ts'
import type { Unit } from '#contract/people.ts'
import { PeopleMarks, StateKey } from '../../charts/people-marks.tsx'
import { tallyRequired, totalOf } from '../../model/tally-status.ts'
import { certificationTitle } from '../../model/titles.ts'
import { ofAll } from '../../words/of-all.ts'
import { unitLines } from './unit-lines.ts'
import './in-force.css'

interface InForceProps {
  units: readonly Unit[]
  counts: Readiness['counts']
  certifications: readonly Certification[]
}

/** Certification by certification, company by company: one mark a soldier required to hold it, in order of state. */
export function InForce({ units, counts, certifications }: InForceProps) {
  const codes = [...new Set(counts.map(({ certification }) => certification))].sort()
  return (
    <div className="in-force">
      {codes.map((code) => {
        const tally = tallyRequired(counts.filter(({ certification }) => certification === code))
        if (totalOf(tally) === 0) return null
        return (
          <div key={code} className="in-force-certification">
            <h3>
              <Link href={`/stand?certification=${code}`}>{certificationTitle(certifications, code)}</Link>
              <span>
                <b>{ofAll(tally.certified, totalOf(tally))}</b> in force
              </span>
            </h3>
            <StateKey tally={tally} />
            <ul>
              {unitLines(units, counts, code).map((line) => (
                <li key={line.unit.id}>
                  <Link href={`/stand?unitId=${line.unit.id}&certification=${code}`}>
                    <bdi>{line.unit.name}</bdi>
                  </Link>
                  <span className="in-force-share">{ofAll(line.tally.certified, line.total)}</span>
                  <PeopleMarks tally={line.tally} size={13} />
                </li>
              ))}
            </ul>
          </div>
        )
      })}
    </div>
  )
}
