import { useMutation } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import type { CheckedCertificate, SignedCertificate } from '#contract/soldiers/signed-certificates.ts'
import { verifyCertificate } from '../../../api/soldiers/extracts.ts'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Doorway } from '../../../ui/doorway.tsx'
import { FactLines } from '../../../ui/fact-lines.tsx'
import { Field } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { formatDayWithYear } from '../../../words/format-day.ts'
import './extract.css'

const ASKS = {
  answer: 'Is a certificate genuine?',
  why: 'Scan the code on it with a camera, or paste what the code holds. Nothing of it is kept.',
}

const SAYS: Record<CheckedCertificate['state'], { answer: string; why: string }> = {
  valid: {
    answer: 'It is in force today.',
    why: 'The unit signed what stands below. Compare it with the paper, and with who shows it.',
  },
  'no-longer-in-force': {
    answer: 'It is no longer in force.',
    why: 'The unit signed what stands below; since that day it has lapsed, or was suspended or undone, or the soldier has left.',
  },
  unknown: {
    answer: 'This is not a certificate of this unit.',
    why: 'The unit did not sign it, or part of it is missing. Scan the code again, or ask the training office with the record number.',
  },
}

/** What was scanned or pasted, without the address before it and the breaks that a copy may have put in. */
const signedIn = (text: string): string => text.slice(text.indexOf('#') + 1).replace(/\s/g, '')

/** Whether a certificate that somebody shows is good, for anybody. It stands behind the #, so that it never reaches a log. */
export default function VerifyPage() {
  const [text, setText] = useState('')
  const { mutate, data, error, isPending, variables } = useMutation({ mutationFn: verifyCertificate })
  useEffect(() => {
    const take = () => {
      const scanned = signedIn(location.hash)
      if (scanned === '') return
      // Names do not stay in the history of the browser.
      history.replaceState(null, '', paths.verify)
      mutate(scanned)
    }
    take()
    window.addEventListener('hashchange', take)
    return () => window.removeEventListener('hashchange', take)
  }, [mutate])
  const says = data ? SAYS[data.state] : ASKS
  return (
    <Doorway>
      <Page
        title="Check a certificate"
        {...(isPending ? {} : says)}
        error={isPending ? null : error}
        onRetry={variables === undefined ? undefined : () => mutate(variables)}
      >
        {data?.certificate && (
          <div className="certificate-checked">
            <Facts certificate={data.certificate} />
          </div>
        )}
        <form
          className="doorway-form"
          onSubmit={(event) => {
            event.preventDefault()
            setText('')
            mutate(signedIn(text))
          }}
        >
          <Field label={data ? 'Another certificate' : 'What the code holds'}>
            {(id) => (
              <textarea
                id={id}
                required
                rows={3}
                maxLength={8192}
                autoComplete="off"
                spellCheck={false}
                value={text}
                onChange={(event) => setText(event.target.value)}
              />
            )}
          </Field>
          <Button type="submit" kind="main" disabled={isPending}>
            Check
          </Button>
        </form>
      </Page>
    </Doorway>
  )
}

/** What was signed, in the order of the paper. */
function Facts({ certificate }: { certificate: SignedCertificate }) {
  return (
    <FactLines
      facts={[
        ['Name', <bdi key="name">{`${certificate.givenName} ${certificate.familyName}`}</bdi>],
        ['Grade', certificate.grade],
        ['Unit', <bdi key="unit">{certificate.unit}</bdi>],
        ['Certification', certificate.title],
        ['Awarded', formatDayWithYear(certificate.awardedOn)],
        ['Valid through', formatDayWithYear(certificate.validThrough)],
        ['As of', formatDayWithYear(certificate.asOf)],
        [
          'Record number',
          <span key="number" className="certificate-number">
            {certificate.number}
          </span>,
        ],
      ]}
    />
  )
}
