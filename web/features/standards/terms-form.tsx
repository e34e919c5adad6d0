import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification, CertificationBody } from '#contract/standards/certifications.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { effectOfTerms, enterTerms, invalidateStandards } from '../../api/standards/standards.ts'
import { fullUnitName, unitsInOrder } from '../../domain/soldiers/unit-tree.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { codesOf, ListedChoices, Unlisted } from '../../parts/soldiers/unlisted.tsx'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { formatDayInFull } from '../../words/format-day.ts'
import { EffectView } from './effect-view.tsx'
import { Meaning } from './meaning.tsx'
import { TermsFields } from './terms-fields.tsx'
import { useEffectPages } from './use-effect-pages.ts'

interface TermsFormProps {
  latest: Certification
  units: readonly Unit[]
  today: string
}

/** New terms from a day: shows what they would change, then enters them. */
export function TermsForm({ latest, units, today }: TermsFormProps) {
  const client = useQueryClient()
  const certifications = useQuery(certificationsQuery).data ?? []
  const { id: _id, ...given } = latest
  const [body, setBody] = useState<CertificationBody>({ ...given, effectiveFrom: today })
  const [grades, setGrades] = useState(given.requiredOf?.grades?.join(', ') ?? '')
  const chosen = body.requiredOf?.units ?? []
  const lists = useQuery(listsQuery).data
  const terms = withRequired(body, grades, chosen)
  const effect = useEffectPages(JSON.stringify(terms), (after) => effectOfTerms(terms, after))
  const enter = useMutation({ mutationFn: () => enterTerms(terms), onSuccess: () => invalidateStandards(client) })
  const failed = effect.error ?? enter.error
  const setUnits = (ids: string[]) => setBody({ ...body, requiredOf: { grades: null, units: ids } })
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        effect.show()
      }}
    >
      <div className="standard-fields">
        <TermsFields body={body} onBody={setBody} />
        <TextField
          label="Required of grades"
          value={grades}
          list="terms-grades"
          hint={`With a comma between; empty: of any grade.${lists?.grades.length ? ` The list has ${lists.grades.map(({ code }) => code).join(', ')}.` : ''}`}
          onChange={(event) => setGrades(event.target.value)}
        />
        <ListedChoices id="terms-grades" listed={lists?.grades} />
        <Unlisted kind="grade" codes={codesOf(grades)} listed={lists?.grades} />
        <RequiredUnits units={units} chosen={chosen} onChosen={setUnits} />
      </div>
      <Meaning terms={terms} before={given} today={today} />
      <div className="standard-buttons">
        <Button type="submit" disabled={effect.loading}>
          {effect.loading ? 'Working it out' : 'Show what they would change'}
        </Button>
      </div>
      {failed && <Failure error={failed} />}
      {effect.pages.length > 0 && (
        <>
          <EffectView
            pages={effect.pages}
            titleOf={(code) => certificationTitle(certifications, code)}
            units={units}
            today={today}
            loading={effect.loading}
            onMore={effect.more}
          />
          <p>
            <Button kind="main" disabled={enter.isPending} onClick={() => enter.mutate()}>
              Enter the terms, from {formatDayInFull(terms.effectiveFrom, today)}
            </Button>
          </p>
        </>
      )}
    </form>
  )
}

/** The terms with whom they require it of; nobody in particular is null. */
function withRequired(body: CertificationBody, grades: string, units: readonly string[]): CertificationBody {
  const listed = codesOf(grades)
  const requiredOf =
    listed.length === 0 && units.length === 0
      ? null
      : { grades: listed.length > 0 ? listed : null, units: units.length > 0 ? [...units] : null }
  return { ...body, requiredOf }
}

interface RequiredUnitsProps {
  units: readonly Unit[]
  chosen: readonly string[]
  onChosen: (ids: string[]) => void
}

function RequiredUnits({ units, chosen, onChosen }: RequiredUnitsProps) {
  return (
    <fieldset className="standard-units">
      <legend>Required in units</legend>
      <p className="muted small">None ticked: in any unit. A unit stands for all below it.</p>
      <div className="standard-unit-list">
        {unitsInOrder(units).map(({ unit }) => (
          <label key={unit.id} className="tick">
            <input
              type="checkbox"
              checked={chosen.includes(unit.id)}
              onChange={(event) =>
                onChosen(event.target.checked ? [...chosen, unit.id] : chosen.filter((id) => id !== unit.id))
              }
            />
            {fullUnitName(units, unit.id)}
          </label>
        ))}
      </div>
    </fieldset>
  )
}
