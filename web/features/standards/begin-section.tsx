import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { codeFor } from '#standards/code-for.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { beginningsQuery, createDraft, invalidateStandards } from '../../api/standards/standards.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { newMinor } from '../../domain/standards/edits/measure-edits.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Field, SelectField, TextField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { counted, countedInWords } from '../../words/format-number.ts'

/** Where on the page of standards one begins. */
export const BEGIN = 'a-standard-of-your-own'

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
  const [measures, setMeasures] = useState('')
  const titles = measures.split('\n').flatMap((line) => line.trim() || [])
  const carries = carriesArms(useQuery(listsQuery).data)
  const items = beginnings.data?.items.filter(({ arms }) => carries || arms.length === 0) ?? []
  const chosen = items.find(({ code }) => code === from)
  const make = useMutation({
    mutationFn: () => createDraft(draftOf(chosen ?? withMeasures(titles), title.trim(), standards, today)),
    onSuccess: async ({ id }) => {
      await invalidateStandards(client)
      navigate(addressTo(paths.draft, { id }))
    },
  })
  return (
    <Section title="A standard of your own" note="begins as a draft">
      <form
        id={BEGIN}
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
                : 'Only the titles of its minor measures; the rest is written on the next page.'
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
          {!chosen && (
            <Field
              label="Minor measures, one a line"
              hint={titles.length > 0 ? counted(titles.length, 'measure') : undefined}
            >
              {(id, described) => (
                <textarea
                  id={id}
                  aria-describedby={described}
                  required
                  rows={Math.max(4, titles.length + 2)}
                  value={measures}
                  onChange={(event) => setMeasures(event.target.value)}
                />
              )}
            </Field>
          )}
        </div>
        <div className="standard-buttons">
          <Button type="submit" kind="main" disabled={make.isPending}>
            Make the draft
          </Button>
          <Link href={paths.import}>Import one from a spreadsheet or JSON</Link>
        </div>
        {make.error && <Failure error={make.error} />}
      </form>
    </Section>
  )
}

const BLANK = {
  arms: [],
  task: '',
  conditions: [],
  standard: '',
  references: [],
  rule: { trials: 3, needed: 2, percent: '80' },
  majors: [],
  gauges: [],
  calls: [],
  cautions: [],
  equivalentToPrevious: true,
} satisfies Partial<StandardBody>

/** Nothing but measures, of which only the titles are known. */
const withMeasures = (titles: readonly string[]): Begun => {
  const used: string[] = []
  const minors = titles.map((title) => {
    const minor = newMinor(title, used)
    used.push(minor.code)
    return minor
  })
  return { ...BLANK, minors }
}

type Begun = Omit<StandardBody, 'code' | 'version' | 'title' | 'effectiveFrom'>

/** A first version under a code that no standard has. */
const draftOf = (begun: Begun, title: string, standards: readonly Standard[], today: string): StandardBody => ({
  ...begun,
  code: codeFor(
    title,
    standards.map(({ code }) => code),
  ),
  version: 1,
  title,
  effectiveFrom: today,
})
