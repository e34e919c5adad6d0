import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Certification, CertificationBody } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { codeFor } from '#standards/code-for.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { enterTerms, invalidateStandards } from '../../api/standards/standards.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { newestStandards } from '../../domain/standards/titles.ts'
import { codesOf, ListedChoices, Unlisted } from '../../parts/soldiers/unlisted.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { BEGIN } from './begin-section.tsx'
import { Meaning } from './meaning.tsx'

/** Common practice, no source: a year, ninety days, a week, a month, three in a row. */
const TERMS = {
  sequence: 'any',
  windowDays: 90,
  validityMonths: 12,
  waitDays: 7,
  dueDays: 30,
  reviewAfter: 3,
  approval: 'none',
  extensionDays: 0,
  requiredOf: null,
} as const satisfies Partial<CertificationBody>

interface NewCertificationFormProps {
  standards: readonly Standard[]
  certifications: readonly Certification[]
  today: string
}

/** Which published standards make somebody certified. It begins with common terms, and goes to the page where they are changed. */
export function NewCertificationForm({ standards, certifications, today }: NewCertificationFormProps) {
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const lists = useQuery(listsQuery).data
  const [title, setTitle] = useState('')
  const [arms, setArms] = useState('')
  const [from, setFrom] = useState(today)
  const [chosen, setChosen] = useState<readonly string[]>([])
  const choices = newestStandards(standards.filter(({ publishedAt }) => publishedAt !== null))
  const drafts = newestStandards(standards.filter(({ publishedAt }) => publishedAt === null))
  const code = codeFor(
    title,
    certifications.map((one) => one.code),
  )
  const terms = {
    ...TERMS,
    code,
    title: title.trim(),
    standards: [...chosen],
    arms: codesOf(arms),
    effectiveFrom: from,
  }
  const enter = useMutation({
    mutationFn: () => enterTerms(terms),
    onSuccess: async () => {
      await invalidateStandards(client)
      navigate(addressTo(paths.terms, { code }))
    },
  })
  return (
    <Section title="A new certification" note="what somebody must pass to stand">
      {choices.length === 0 ? (
        <NothingPublished drafts={drafts} />
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault()
            enter.mutate()
          }}
        >
          <div className="standard-fields">
            <TextField
              label="Certification"
              required
              maxLength={400}
              value={title}
              hint={
                carriesArms(lists)
                  ? 'What somebody who holds it may stand with: “Sword”.'
                  : 'What somebody who holds it may stand at: “Casket watch”.'
              }
              onChange={(event) => setTitle(event.target.value)}
            />
            {carriesArms(lists) && (
              <TextField
                label="For who carries"
                value={arms}
                list="certification-arms"
                hint="Arms with a comma between; empty: whatever they carry."
                onChange={(event) => setArms(event.target.value)}
              />
            )}
            <ListedChoices id="certification-arms" listed={lists?.arms} />
            <Unlisted kind="arm" codes={codesOf(arms)} listed={lists?.arms} />
            <TextField
              label="Terms hold from"
              type="date"
              required
              value={from}
              onChange={(event) => setFrom(event.target.value)}
            />
            <RequiredStandards choices={choices} chosen={chosen} onChosen={setChosen} />
          </div>
          <Meaning terms={terms} today={today} />
          <p className="muted">These are common terms; you can change them on the next page.</p>
          <div className="standard-buttons">
            <Button type="submit" kind="main" disabled={enter.isPending || chosen.length === 0}>
              Add the certification
            </Button>
          </div>
          {enter.error && <Failure error={enter.error} />}
        </form>
      )}
    </Section>
  )
}

function NothingPublished({ drafts }: { drafts: readonly Standard[] }) {
  return (
    <Empty>
      <p>
        A certification requires published standards, and there is none yet.{' '}
        {drafts.length === 0 ? (
          <a href={`#${BEGIN}`}>Begin a standard</a>
        ) : (
          <>
            Publish a draft first:{' '}
            {drafts.map(({ id, title: name }, at) => (
              <span key={id}>
                {at > 0 && ', '}
                <Link href={addressTo(paths.draft, { id })}>{name}</Link>
              </span>
            ))}
            .
          </>
        )}
      </p>
    </Empty>
  )
}

interface RequiredStandardsProps {
  choices: readonly Standard[]
  chosen: readonly string[]
  onChosen: (codes: readonly string[]) => void
}

function RequiredStandards({ choices, chosen, onChosen }: RequiredStandardsProps) {
  return (
    <fieldset className="standard-units">
      <legend>Requires a GO in</legend>
      <div className="standard-unit-list">
        {choices.map((standard) => (
          <label key={standard.code} className="tick">
            <input
              type="checkbox"
              checked={chosen.includes(standard.code)}
              onChange={(event) =>
                onChosen(
                  event.target.checked ? [...chosen, standard.code] : chosen.filter((one) => one !== standard.code),
                )
              }
            />
            {standard.title}
          </label>
        ))}
      </div>
    </fieldset>
  )
}
