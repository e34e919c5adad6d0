import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useLocation } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { effectOfPublishing, invalidateStandards, publishDraft } from '../../api/standards/standards.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDayInFull } from '../../words/format-day.ts'
import { today as todayIn } from '../../words/today.ts'
import { EffectView } from './effect-view.tsx'
import { useEffectPages } from './use-effect-pages.ts'

/** Shows what publishing a draft would change, and then publishes it. */
export function PublishSection({ standard, isSaved }: { standard: Standard; isSaved: boolean }) {
  const today = todayIn()
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const units = useQuery(unitsQuery).data ?? []
  const certifications = useQuery(certificationsQuery).data ?? []
  const effect = useEffectPages(JSON.stringify(standard), (after) => effectOfPublishing(standard.id, after))
  const publish = useMutation({
    mutationFn: () => publishDraft(standard.id),
    onSuccess: async () => {
      await invalidateStandards(client)
      navigate(addressTo(paths.standard, { id: standard.code, version: standard.version }))
    },
  })
  const failed = effect.error ?? publish.error
  return (
    <Section title="Publish">
      <div className="standard-buttons">
        <Button disabled={!isSaved || effect.loading} onClick={effect.show}>
          {effect.loading ? 'Working it out' : 'Show what it would change'}
        </Button>
        {!isSaved && <span className="muted">Save the draft first.</span>}
      </div>
      {failed && <Failure error={failed} />}
      {effect.pages.length > 0 && isSaved && (
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
            <Button kind="main" disabled={publish.isPending} onClick={() => publish.mutate()}>
              Publish version {standard.version}, in force from {formatDayInFull(standard.effectiveFrom, today)}
            </Button>
          </p>
        </>
      )}
    </Section>
  )
}
