import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { Section } from '../../../ui/section.tsx'
import type { Assessment } from './assess-draft.ts'
import { armFor, chooseArm } from './choose-arm.ts'
import { enterable } from './default-standard.ts'
import { HeadFields } from './head-fields.tsx'
import { SecondOfField } from './second-of-field.tsx'
import type { useDesk } from './use-desk.ts'

interface HeadPartProps {
  desk: ReturnType<typeof useDesk>
  standards: readonly Standard[]
  standard: Standard
  assessment: Assessment
  /** The candidate on the sheet, once the roster has said more of them than a name. */
  candidate: SoldierDetail | undefined
  sponsorHint: string | undefined
  timeZone: string
}

/** Whose sheet it is, by which standard, when; what follows from the candidate and the standard comes with them. */
export function HeadPart({ desk, standards, standard, assessment, candidate, sponsorHint, timeZone }: HeadPartProps) {
  const { draft, edit } = desk
  return (
    <Section title="Sheet">
      <HeadFields
        draft={draft}
        standards={enterable(standards)}
        standard={standard}
        errors={assessment.head}
        timeZone={timeZone}
        sponsorHint={sponsorHint}
        onChange={edit}
        onStandard={(standardId) => {
          const arms = standards.find(({ id }) => id === standardId)?.arms ?? []
          edit({
            standardId,
            arm: candidate ? chooseArm(candidate.arms, arms, draft.arm) : armFor(arms, draft.arm),
          })
        }}
        onCandidate={(person, arms) =>
          edit({
            candidate: person,
            secondOf: '',
            arm: person ? chooseArm(arms, standard.arms, draft.arm) : draft.arm,
          })
        }
        onDone={desk.toMarks}
      />
      <SecondOfField
        draft={draft}
        standard={standard.code}
        timeZone={timeZone}
        onSecondOf={(secondOf) => edit({ secondOf })}
      />
    </Section>
  )
}
