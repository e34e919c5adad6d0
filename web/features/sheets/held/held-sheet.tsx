import { Link } from 'wouter'
import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { MeasureStrip } from '../../../charts/measure-strip.tsx'
import { formatMajorsFailed, formatOutcome, formatScore } from '../../../domain/sheets/format-outcome.ts'
import { formatViolation } from '../../../domain/sheets/format-rule.ts'
import { measureMarks, versionOf } from '../../../parts/sheets/measure-marks.ts'
import { addressTo, paths } from '../../../paths.ts'
import { formatDay } from '../../../words/format-day.ts'
import { DecisionForm } from './decision-form.tsx'

interface HeldSheetProps {
  sheet: SheetSummary
  standards: readonly Standard[]
  /** The title of a certification or standard. */
  titleOf: (code: string) => string
  today: string
  onDecided: (decision: 'count' | 'reject') => void
}

/** One held sheet: whose it is, how it came out, why it is held, and the decision. */
export function HeldSheet({ sheet, standards, titleOf, today, onDecided }: HeldSheetProps) {
  const { body, result, people } = sheet
  const version = versionOf(standards, body)
  const name = (id: string | null) => (id === null ? 'none' : (people[id] ?? 'not visible to you'))
  return (
    <article className="held">
      <div>
        <h3>
          <Link href={addressTo(paths.candidate, { id: body.candidateId })}>
            <bdi>{name(body.candidateId)}</bdi>
          </Link>
          <span className="held-outcome">{formatOutcome(body, result)}</span>
        </h3>
        <p>
          {version?.title ?? body.standard}, {formatDay(sheet.day, today)}
        </p>
        <p className="muted">
          Grader <bdi>{name(body.graderId)}</bdi>, sponsor <bdi>{name(body.sponsorId)}</bdi>
        </p>
        {version && result.minors.length > 0 && <MeasureStrip measures={measureMarks(version, body, result)} />}
        <p className="muted">
          {[formatScore(result), ...formatMajorsFailed(body, version)].filter(Boolean).join('; ')}{' '}
          <Link href={addressTo(paths.sheet, { id: sheet.id })}>The whole sheet</Link>
        </p>
      </div>
      <div>
        <ul className="held-why">
          {sheet.violations.map((violation) => (
            <li key={violation.rule}>
              {formatViolation(violation, today, titleOf)}{' '}
              {!violation.waivable && <span className="held-never">Never waived.</span>}
            </li>
          ))}
        </ul>
        <DecisionForm sheet={sheet} onDecided={onDecided} />
      </div>
    </article>
  )
}
