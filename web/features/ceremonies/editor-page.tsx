import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation, useSearchParams } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { ceremonyQuery, changeCeremony, createCeremony } from '../../api/ceremonies/ceremonies.ts'
import { ApiError } from '../../api/errors.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { TimesAsked } from '../../ui/times-asked.tsx'
import { today as todayIn } from '../../words/today.ts'
import { unitZone } from '../../words/unit-zone.ts'
import { blankDraft, bodyOf, changeOf, type Draft, draftOf } from './draft.ts'
import { manningUnit, plannableUnits } from './manning-unit.ts'
import { PlanFields } from './plan-fields.tsx'
import { PostFields } from './post-fields.tsx'
import { RehearsalFields } from './rehearsal-fields.tsx'
import { useWords, type Words } from './use-words.ts'
import './editor.css'

/** Plans a ceremony, anew, as a copy of another or by changing one (`id`). */
export default function CeremonyEditorPage({ id }: { id: string }) {
  const [params] = useSearchParams()
  const copyOf = id === '' ? (params.get('copy') ?? '') : ''
  const query = useQuery(ceremonyQuery(id || copyOf))
  const session = useQuery(sessionQuery).data
  const words = useWords(query.data?.unitId)
  const isReady = words.units.length > 0 && words.certifications.length > 0
  if (words.isLoaded && !isReady) return <NotYet />
  if (!isReady || ((id || copyOf) && !query.data)) {
    return <Page title="Plan a ceremony" error={query.error} onRetry={query.refetch} />
  }
  const own = plannableUnits(words.units, session)
  const unitId = manningUnit(own, session?.unitId ?? null, query.data?.unitId)
  const start = query.data
    ? { ...draftOf(query.data, words.zone ?? unitZone(), copyOf !== ''), unitId }
    : blankDraft(unitId, words.certifications[0]?.code ?? '')
  return (
    <Editor
      key={copyOf}
      ceremony={id === '' ? null : (query.data ?? null)}
      start={start}
      copied={copyOf ? query.data : undefined}
      words={{ ...words, units: own }}
      allUnits={words.units}
    />
  )
}

/** A unit that is being set up has nothing yet that a ceremony is planned with. */
const NotYet = () => (
  <Page title="Plan a ceremony" answer="A ceremony needs a unit and a certification." why="Set these up first.">
    <Empty>
      <p>The unit mans it, and each post asks for a certification.</p>
      <FilledBy steps={['units', 'standards', 'certifications']} />
    </Empty>
  </Page>
)

interface EditorProps {
  ceremony: CeremonyDetail | null
  start: Draft
  /** The ceremony that this is a copy of. */
  copied: CeremonyDetail | undefined
  /** With the units that may man it. */
  words: Words
  allUnits: readonly Unit[]
}

function Editor({ ceremony: opened, start, copied, words, allUnits }: EditorProps) {
  // What was opened stays what is changed: somebody else's change in the meantime must be refused, not overwritten.
  const [ceremony] = useState(opened)
  const [draft, setDraft] = useState(start)
  const [, go] = useLocation()
  const client = useQueryClient()
  const zone = timeZoneOf(allUnits, draft.unitId) ?? unitZone()
  const change = (changes: Partial<Draft>) => setDraft({ ...draft, ...changes })
  const save = useMutation({
    mutationFn: async () => {
      if (!ceremony) return (await createCeremony(bodyOf(draft, zone))).id
      await changeCeremony(ceremony.id, changeOf(draft, zone, ceremony.version))
      return ceremony.id
    },
    onSuccess: async (id) => {
      await client.invalidateQueries({ queryKey: ['ceremonies'] })
      go(addressTo(paths.ceremony, { id }))
    },
  })
  const wrong = save.error instanceof ApiError ? save.error.items : []
  const wrongAt = (pointer: string) => wrong.find((item) => item.pointer === pointer)?.detail ?? null
  const isStale = save.error instanceof ApiError && save.error.is('stale-ceremony')
  return (
    <Page
      title={ceremony ? `Change ${ceremony.title}` : 'Plan a ceremony'}
      answer={ceremony ? `Change the plan of ${ceremony.title}.` : 'Plan a ceremony.'}
      why={
        ceremony
          ? 'Who is named to a post stays named, as long as the post does.'
          : copied
            ? formatCopied(copied, start.unitId, allUnits)
            : 'Soldiers are named on its page once it is planned.'
      }
      compact
    >
      <form
        className="ceremony-form"
        onSubmit={(event) => {
          event.preventDefault()
          save.mutate()
        }}
      >
        <Section title="What, when and where">
          <PlanFields draft={draft} onChange={change} units={words.units} zone={zone} wrongAt={wrongAt} />
          <TimesAsked day={draft.day} from={draft.start} to={draft.end} zone={zone} today={todayIn(zone)} />
        </Section>
        <Section title="Rehearsals" note="everybody named must attend">
          <RehearsalFields
            rehearsals={draft.rehearsals}
            day={draft.day}
            zone={zone}
            onChange={(rehearsals) => change({ rehearsals })}
            wrongAt={wrongAt}
          />
        </Section>
        <Section title="Posts" note={`${draft.posts.length} in all; rank 1 is in front, places count from its right`}>
          <PostFields
            posts={draft.posts}
            onChange={(posts) => change({ posts })}
            certifications={words.certifications}
            wrongAt={wrongAt}
          />
        </Section>
        {save.error && <Failure error={save.error} />}
        <div className="form-buttons">
          {isStale && ceremony ? (
            <Button onClick={() => location.reload()}>Reload and lose what I typed</Button>
          ) : (
            <Button kind="main" type="submit" disabled={save.isPending || draft.posts.length === 0}>
              {ceremony ? 'Save the change' : 'Plan it'}
            </Button>
          )}
          <Button onClick={() => go(ceremony ? addressTo(paths.ceremony, { id: ceremony.id }) : paths.ceremonies)}>
            {ceremony ? 'Leave it as it is' : 'Cancel'}
          </Button>
        </div>
      </form>
    </Page>
  )
}

/** What a copy takes along, and that another unit mans it where the planner may not call on the one copied from. */
const formatCopied = (copied: CeremonyDetail, unitId: string, units: readonly Unit[]): string => {
  const kept = `A copy of ${copied.title}: its times and posts, with no day and nobody named yet.`
  if (unitId === copied.unitId) return kept
  return `${kept} ${fullUnitName(units, copied.unitId)} mans that one; yours is manned by ${fullUnitName(units, unitId)}.`
}
