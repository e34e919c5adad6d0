import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { beginningsQuery, createDraft, forgetStandards } from '../../api/standards/standards.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { countedInWords } from '../../words/say-number.ts'
import { codeFor } from './edit-definition.ts'

interface BeginSectionProps {
  standards: readonly Standard[]
  today: string
}

/** A standard of one's own: a copy of common practice, or nearly blank; either way a draft that nobody is tested by. */
export function BeginSection({ standards, today }: BeginSectionProps) {
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const beginnings = useQuery(beginningsQuery)
  const [from, setFrom] = useState('')
  const [title, setTitle] = useState('')
  const items = beginnings.data?.items ?? []
  const chosen = items.find(({ code }) => code === from)
  const make = useMutation({
    mutationFn: () => createDraft(draftOf(chosen ?? BLANK, title.trim(), standards, today)),
    onSuccess: async ({ id }) => {
      await forgetStandards(client)
      navigate(addressTo(paths.draft, { id }))
    },
  })
  return (
    <Section title="A standard of your own" note="begins as a draft">
      <form
        onSubmit={(event) => {
          event.preventDefault()
          make.mutate()
        }}
      >
        <div className="standard-fields">
          <SelectField
            label="Begin from"
            value={from}
            hint={
              chosen
                ? `${countedInWords(chosen.majors.length, 'major')}, ${countedInWords(chosen.minors.length, 'minor')}, ${chosen.calls.length} calls. Common practice, no source: check it against your own manual.`
                : 'One measure to start with; you write the rest.'
            }
            onChange={(event) => {
              setFrom(event.target.value)
              setTitle(items.find(({ code }) => code === event.target.value)?.title ?? '')
            }}
          >
            <option value="">Blank</option>
            {items.map((one) => (
              <option key={one.code} value={one.code}>
                {one.title}
              </option>
            ))}
          </SelectField>
          <TextField
            label="Title"
            required
            maxLength={400}
            value={title}
            onChange={(event) => setTitle(event.target.value)}
          />
        </div>
        <div className="standard-buttons">
          <Button type="submit" kind="main" disabled={make.isPending}>
            Make the draft
          </Button>
          <Link href={paths.import}>Import one from a file</Link>
        </div>
        {make.error && <Failure error={make.error} />}
      </form>
    </Section>
  )
}

const BLANK: StandardBody = {
  code: '',
  version: 1,
  title: '',
  arms: [],
  task: '',
  conditions: [],
  standard: '',
  references: [],
  rule: { trials: 3, needed: 2, percent: '80' },
  majors: [],
  minors: [
    {
      code: 'measure',
      title: 'First measure',
      counts: null,
      gauges: [],
      checks: { preparatory: [], execution: [] },
      faults: [],
    },
  ],
  gauges: [],
  calls: [],
  cautions: [],
  effectiveFrom: '',
  equivalentToPrevious: true,
}

/** A first version under a code that no standard has. */
const draftOf = (begun: StandardBody, title: string, standards: readonly Standard[], today: string): StandardBody => ({
  ...begun,
  code: codeFor(
    title,
    standards.map(({ code }) => code),
  ),
  version: 1,
  title,
  effectiveFrom: today,
})
