import { useQuery } from '@tanstack/react-query'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { certificationsOn, newestStandards, versionInForce, versionsOf } from '../../domain/standards/titles.ts'
import { Empty } from '../../ui/empty.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { capital, inWords, plural } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { BeginSection } from './begin-section.tsx'
import { NewCertificationForm } from './new-certification-form.tsx'
import './standards.css'
import './draft.css'
import { CertificationList, StandardList } from './standard-list.tsx'

/** Which standards there are, and which certifications require them. */
export default function StandardsPage() {
  const query = useQuery(standardsQuery)
  const terms = useQuery(certificationsQuery).data ?? []
  const mayManage = useMay('manage-standards')
  const today = todayIn()
  const standards = query.data
  const shown =
    standards && newestStandards(standards).map(({ code }) => versionInForce(versionsOf(standards, code), today)!)
  const published = shown?.filter(({ publishedAt }) => publishedAt !== null).length ?? 0
  const certifications = certificationsOn(terms, today)
  const titleOf = (code: string) => shown?.find((standard) => standard.code === code)?.title ?? code

  return (
    <Page
      title="Standards"
      answer={
        shown &&
        (shown.length === 0
          ? 'No standard is defined yet.'
          : published === 0
            ? `No standard can be tested yet: ${shown.length === 1 ? 'a draft waits' : 'drafts wait'} to be published.`
            : `${capital(inWords(published))} ${plural(published, 'standard')} can be tested.`)
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
            <StandardList shown={shown} standards={standards} today={today} mayManage={mayManage} />
          </Section>
          <Section title="Certifications">
            {certifications.length === 0 && (
              <Empty>
                <p>
                  A certification says which standards somebody passes to be certified, for how long it lasts, and when
                  a NO-GO may be retested.{' '}
                  {mayManage
                    ? published === 0
                      ? 'It is made here once a standard is published.'
                      : 'Add one below.'
                    : 'The training office enters them.'}
                </p>
              </Empty>
            )}
            <CertificationList certifications={certifications} titleOf={titleOf} />
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
