import type { StudySheet } from '#contract/coaching/study.ts'
import { GaugePicture } from '../../charts/gauge-picture.tsx'
import { cautionsOnce } from '../../domain/sheets/format-cautions.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import { formatCall } from '../../domain/standards/format-call.ts'
import { gaugeKind } from '../../domain/standards/gauge-kind.ts'
import { formatDayWithYear } from '../../words/format-day.ts'
import { figure } from '../../words/format-number.ts'
import { formatFault, formatOwn, formatRun } from './format-study.ts'
import './study.css'

type Standard = StudySheet['standard']
type Minor = Standard['minors'][number]
type Gauge = Standard['gauges'][number]

/** The sheet itself: how the test runs, then each measure with its calls, checks, tolerances and faults. */
export function StudyPaper({ sheet }: { sheet: StudySheet }) {
  const { standard, candidate, measures } = sheet
  return (
    <section className="study" aria-label="Study sheet">
      <header className="study-head">
        <h2>{standard.title}</h2>
        <p>
          {candidate && (
            <>
              <bdi>{candidate.name}</bdi>,{' '}
            </>
          )}
          version {standard.version}, as of {formatDayWithYear(sheet.asOf)}
        </p>
      </header>
      <div className="study-run">
        <h3>How the test runs</h3>
        <p>
          Each call: preparatory command, look; “stand by”; the preparatory command again, command of execution, look.
        </p>
        <ol>
          {formatRun(standard).map((line, place) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the same stretch may come again
            <li key={place}>{line}</li>
          ))}
        </ol>
      </div>
      <div className="study-measures">
        {measures.map((measure) => {
          const major = standard.majors.find(({ code }) => measure.major && code === measure.measure)
          const minor = standard.minors.find(({ code }) => !measure.major && code === measure.measure)
          const faults = (major ?? minor)?.faults ?? []
          const own = formatOwn(sheet, measure)
          return (
            <article key={`${measure.major} ${measure.measure}`}>
              <h3>
                {(major ?? minor)?.title}
                {major && <span className="muted"> major</span>}
              </h3>
              {own !== '' && <p className="study-own">{own}</p>}
              {major && major.criteria.length > 0 && <p>{major.criteria.join('; ')}</p>}
              {minor && <Minor standard={standard} minor={minor} />}
              {faults.length > 0 && (
                <p className="study-faults">
                  <b>Faults</b>
                  {measure.trials > 0 && <span className="muted"> in {figure(measure.trials)} trials</span>}:{' '}
                  {measure.faults
                    .map((one) =>
                      formatFault(
                        faults.find(({ code }) => code === one.fault)?.title ?? one.fault,
                        one,
                        candidate !== null,
                      ),
                    )
                    .join('; ')}
                </p>
              )}
            </article>
          )
        })}
        <footer className="study-foot">
          <ul className="study-cautions">
            {cautionsOnce([standard]).map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
          <p className="muted">
            A figure in brackets says how often a fault was noted in the unit’s trials; it is no finding about anybody.
          </p>
        </footer>
      </div>
    </section>
  )
}

/** Calls, checks and tolerances of a minor measure. */
function Minor({ standard, minor }: { standard: Standard; minor: Minor }) {
  const calls = standard.calls.filter(({ measure }) => measure === minor.code)
  const commands = [...new Set(calls.map((call) => formatCall(call)).filter(Boolean))]
  const from = [...new Set(calls.flatMap((call) => call.from ?? []))]
  const gauges = minor.gauges.flatMap((code) => standard.gauges.find((gauge) => gauge.code === code) ?? [])
  return (
    <>
      {commands.length > 0 && (
        <p>
          <b>{commands.join('; ')}</b>
          {from.length > 0 && <span className="muted"> from {from.join(', ')}</span>}
        </p>
      )}
      <Checks when="Preparatory" checks={minor.checks.preparatory} />
      <Checks when="Execution" checks={minor.checks.execution} />
      {gauges.map((gauge) => (
        <Tolerance key={gauge.code} gauge={gauge} />
      ))}
    </>
  )
}

function Checks({ when, checks }: { when: string; checks: Minor['checks']['execution'] }) {
  if (checks.length === 0) return null
  return (
    <p className="study-checks">
      <span className="muted">{when}:</span>{' '}
      {checks.map(({ title, arm }) => (arm ? `${title} (${arm})` : title)).join('; ')}
    </p>
  )
}

const number = (value: string | null | undefined): number | null => (value == null ? null : Number(value))

/** A tolerance in words beside its picture; one without a limit has nothing to draw. */
function Tolerance({ gauge }: { gauge: Gauge }) {
  const tolerance = { min: number(gauge.min), max: number(gauge.max), target: number(gauge.target) }
  const words = [formatBand(gauge), gauge.target != null && `target ${gauge.target}`].filter(Boolean).join(', ')
  return (
    <div className="study-gauge">
      {(tolerance.min !== null || tolerance.max !== null) && (
        <GaugePicture tolerance={tolerance} kind={gaugeKind(gauge)} unit={gauge.unit} />
      )}
      <p>
        {gauge.title} <br />
        <b>{words}</b>
      </p>
    </div>
  )
}
