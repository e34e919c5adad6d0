import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { certificationsOn, newestStandards, versionInForce, versionsOf } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { capital, inWords, listed, plural } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { BeginSection } from './begin-section.tsx'
import { formatNext, formatRuleOfStandard, formatVersion } from './format-standard.ts'
import { NewCertificationForm } from './new-certification-form.tsx'
import './standards.css'
import './draft.css'

/** Which standards there are, and which certifications require them. */
export default function StandardsPage() {
  const query = useQuery(standardsQuery)
  const terms = useQuery(certificationsQuery).data ?? []
  const mayManage = useMay('manage-standards')
  const today = todayIn()
  const standards = query.data
  const shown =
    standards && newestStandards(standards).map(({ code }) => versionInForce(versionsOf(standards, code), today)!)
  const certifications = certificationsOn(terms, today)
  const titleOf = (code: string) => shown?.find((standard) => standard.code === code)?.title ?? code

  return (
    <Page
      title="Standards"
      answer={
        shown &&
        (shown.length === 0
          ? 'No standard is defined yet.'
          : `${capital(inWords(shown.length))} ${plural(shown.length, 'standard')} can be tested.`)
      }
      why={shown && 'A sheet is scored for ever by the version it was taken under.'}
      error={shown ? null : query.error}
      onRetry={query.refetch}
    >
      {shown && (
        <div className="columns">
          <Section title="Standards">
            {shown.length === 0 && (
              <Empty>
                <p>
                  A standard says what is tested: task, conditions, measures, faults, gauges and calls.{' '}
                  {mayManage ? 'Begin one below.' : 'The training office enters them.'}
                </p>
              </Empty>
            )}
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
                </li>
              ))}
            </ul>
          </Section>
          <Section title="Certifications">
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
                    {certification.windowDays} days; retest after {certification.waitDays}, by {certification.dueDays}{' '}
                    days; review after {inWords(certification.reviewAfter)} NO-GO in a row
                  </p>
                </li>
              ))}
            </ul>
          </Section>
        </div>
      )}
      {standards && mayManage && (
        <>
          <BeginSection standards={standards} today={today} />
          <NewCertificationForm standards={standards} certifications={certifications} today={today} />
        </>
      )}
    </Page>
  )
}
