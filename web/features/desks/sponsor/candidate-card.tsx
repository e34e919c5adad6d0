import { Link } from 'wouter'
import { type ForecastOf, formatWhatItTakes } from '../../../domain/ability/format-forecast.ts'
import { formatWhen } from '../../../domain/coaching/format-ahead.ts'
import { formatDrillReason, formatUnitRate, isToDrill, measuresToDrill } from '../../../domain/coaching/format-drill.ts'
import { Chance } from '../../../parts/ability/chance.tsx'
import { WarningList } from '../../../parts/coaching/warning-list.tsx'
import { addressTo, gradePaths, paths } from '../../../paths.ts'
import { StateWord } from '../../../ui/state-mark.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { inWords } from '../../../words/format-number.ts'
import type { Coached } from './format-desk.ts'

interface CandidateCardProps {
  candidate: Coached
  certificationTitle: (code: string) => string
  standardTitle: (code: string) => string
  measureTitle: (standard: string, measure: string) => string
  faultTitle: (standard: string, measure: string, fault: string) => string
  forecastOf: ForecastOf
  sponsorId: string | null
  timeZone: string | null | undefined
  today: string
}

const SHOWN = 3

const timesInWords = (count: number): string => (count === 1 ? 'once' : `${inWords(count)} times`)

/** One candidate: how they stand, what is next, what to drill, what to see to; each with the way to its reason. */
export function CandidateCard(props: CandidateCardProps) {
  const {
    candidate,
    certificationTitle,
    standardTitle,
    measureTitle,
    faultTitle,
    forecastOf,
    sponsorId,
    timeZone,
    today,
  } = props
  const { candidateId, drill, ahead, statuses, warnings } = candidate
  const address = addressTo(paths.candidate, { id: candidateId })
  const forecast = drill ? forecastOf(candidateId, drill.standard) : undefined
  const takes = drill && forecast ? formatWhatItTakes(forecast, (code) => measureTitle(drill.standard, code)) : ''
  return (
    <article className="coached">
      <div>
        <h3>
          <Link href={address}>
            <bdi>
              {candidate.grade} {candidate.name}
            </bdi>
          </Link>
        </h3>
        <ul>
          {statuses.map(({ certification, status, validThrough }) => (
            <li key={certification} className="coached-status">
              <StateWord state={status} />
              <span>{certificationTitle(certification)}</span>
              {status === 'certified' && validThrough && (
                <span className="muted">through {formatDay(validThrough, today)}</span>
              )}
            </li>
          ))}
        </ul>
        <Ahead
          candidate={candidate}
          standardTitle={standardTitle}
          forecastOf={forecastOf}
          timeZone={timeZone}
          today={today}
        />
        <Link
          className="button"
          href={addressTo(gradePaths.start, {
            coached: candidateId,
            standard: drill?.standard ?? ahead[0]?.standard ?? '',
            measures: measuresToDrill(drill?.items ?? []),
          })}
        >
          Practise
        </Link>{' '}
        {drill && (
          <Link className="button" href={addressTo(paths.study, { id: drill.standard, candidate: candidateId })}>
            Study sheet<span className="out-of-sight"> for {candidate.name}</span>
          </Link>
        )}
      </div>
      <div>
        <Drill candidate={candidate} measureTitle={measureTitle} faultTitle={faultTitle} today={today} />
        {takes !== '' && <p>{takes}</p>}
        {warnings.length > 0 && (
          <WarningList warnings={warnings} titleOf={standardTitle} readerId={sponsorId} today={today} />
        )}
      </div>
    </article>
  )
}

type DrillProps = Pick<CandidateCardProps, 'candidate' | 'measureTitle' | 'faultTitle' | 'today'>

function Drill({ candidate: { candidateId, drill }, measureTitle, faultTitle, today }: DrillProps) {
  const toDrill = drill ? drill.items.filter(isToDrill).slice(0, SHOWN) : []
  if (!drill || toDrill.length === 0) return <p className="muted">No measure is NO-GO or open.</p>
  return (
    <ol className="coached-drill" aria-label="Drill in this order">
      {toDrill.map((one) => (
        <li key={one.measure}>
          <Link href={`${addressTo(paths.candidate, { id: candidateId })}?standard=${drill.standard}#drill`}>
            <b>{measureTitle(drill.standard, one.measure)}</b>
          </Link>
          <span>{formatDrillReason(one, drill.tests, today)}</span>
          {one.fault && (
            <span>
              Noted most: {faultTitle(drill.standard, one.measure, one.fault.code)}, {timesInWords(one.fault.count)}
            </span>
          )}
          <span className="muted">First-timers NO-GO: {formatUnitRate(one.unit)}</span>
        </li>
      ))}
    </ol>
  )
}

type AheadProps = Pick<CandidateCardProps, 'candidate' | 'standardTitle' | 'forecastOf' | 'timeZone' | 'today'>

function Ahead({ candidate, standardTitle, forecastOf, timeZone, today }: AheadProps) {
  const { candidateId, ahead, lastPractice } = candidate
  return (
    <ul className="coached-ahead">
      {ahead.map((one) => (
        <li key={one.standard}>
          <Link href={`${addressTo(paths.candidate, { id: candidateId })}?standard=${one.standard}`}>
            {standardTitle(one.standard)}
          </Link>
          : {formatWhen(one, timeZone, today)}
          <ChanceLine forecast={forecastOf(candidateId, one.standard)} />
        </li>
      ))}
      {ahead.length === 0 && <li className="muted">No test is ahead.</li>}
      {lastPractice && <li className="muted">Last practised {formatDay(lastPractice, today)}</li>}
    </ul>
  )
}

/** How many with such a record pass; no verdict on anybody. */
function ChanceLine({ forecast }: { forecast: ReturnType<ForecastOf> }) {
  if (!forecast) return null
  return (
    <>
      <br />
      Such candidates pass: <Chance forecast={forecast} />
    </>
  )
}
