import { Link } from 'wouter'
import type { Certification } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { versionsOf } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { inWords, listed, plural } from '../../words/format-number.ts'
import { formatNext, formatRuleOfStandard, formatVersion } from './format-standard.ts'

interface StandardListProps {
  shown: readonly Standard[]
  /** All versions. */
  standards: readonly Standard[]
  today: string
  mayManage: boolean
}

/** Each standard with its version and its rule. */
export function StandardList({ shown, standards, today, mayManage }: StandardListProps) {
  return (
    <ul className="standard-list">
      {shown.map((standard) => (
        <li key={standard.id}>
          <Link href={addressTo(paths.standard, { id: standard.code })}>
            <b>{standard.title}</b>
          </Link>
          <span className="muted">
            version {standard.version}, {formatVersion(standard, versionsOf(standards, standard.code), today)}
            {formatNext(standard, versionsOf(standards, standard.code), today)}
          </span>
          <p>{formatRuleOfStandard(standard)}</p>
          {standard.arms.length > 0 && <p className="muted">With {listed(standard.arms, 'or')}</p>}
          {mayManage && standard.publishedAt === null && (
            <Link href={addressTo(paths.draft, { id: standard.id })} className="button">
              Go on with the draft
            </Link>
          )}
        </li>
      ))}
    </ul>
  )
}

interface CertificationListProps {
  certifications: readonly Certification[]
  titleOf: (standard: string) => string
}

/** Each certification with what it requires, and for how long. */
export function CertificationList({ certifications, titleOf }: CertificationListProps) {
  return (
    <ul className="standard-list">
      {certifications.map((certification) => (
        <li key={certification.id}>
          <Link href={addressTo(paths.terms, { code: certification.code })}>
            <b>{certification.title}</b>
          </Link>
          <p>
            {listed(certification.standards.map(titleOf))}
            {certification.sequence === 'in-order' && certification.standards.length > 1 && ', in this order'}
          </p>
          <p className="muted">
            Valid {certification.validityMonths} {plural(certification.validityMonths, 'month')}; all within{' '}
            {certification.windowDays} days; retest after {certification.waitDays}, by {certification.dueDays} days;
            review after {inWords(certification.reviewAfter)} NO-GO in a row
          </p>
        </li>
      ))}
    </ul>
  )
}
