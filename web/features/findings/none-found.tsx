import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Section } from '../../ui/section.tsx'

/** Where the filters leave nothing to draw. */
export function NoneFound({ title, children }: { title: string; children: React.ReactNode }) {
  return (
    <Section title={title}>
      <Empty>
        <p>{children}</p>
        <FilledBy steps={['test-days']} />
      </Empty>
    </Section>
  )
}
